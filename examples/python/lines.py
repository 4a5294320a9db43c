"""Pipes jobs through one masstone process and compares that with one process for each job.

python3 examples/python/lines.py [JOBS] [PROCESSES]
"""

import json
import subprocess
import sys
import threading
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
# An installed package has the command `masstone`; a checkout has it here.
MASSTONE = ["node", str(ROOT / "dist" / "cli.js"), "correct", "-"]
HORSEBOX = ROOT / "examples" / "horsebox"


def jobs(count):
    """The horsebox with a little more or less ochre in the pot each time."""
    job = json.loads((HORSEBOX / "job.json").read_text(encoding="utf-8"))
    ochre = job["pot"]["ochre"]
    for number in range(count):
        job["pot"]["ochre"] = ochre * (1 + 0.05 * number / count)
        yield json.dumps(job)


def answers(lines):
    """Yields one answer for each line, in order. A thread sends while this one reads."""
    # Toners named by a job are looked for in the working folder.
    process = subprocess.Popen(
        [*MASSTONE, "--lines"], cwd=HORSEBOX, stdin=subprocess.PIPE, stdout=subprocess.PIPE, encoding="utf-8"
    )

    def send():
        with process.stdin as pipe:
            for line in lines:
                pipe.write(line + "\n")

    sender = threading.Thread(target=send)
    sender.start()
    for line in process.stdout:
        yield json.loads(line)
    sender.join()
    process.wait()


def answer_alone(job):
    ran = subprocess.run(
        [*MASSTONE, "--json"], cwd=HORSEBOX, input=job, stdout=subprocess.PIPE, encoding="utf-8", check=True
    )
    return json.loads(ran.stdout)


def main():
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    alone = int(sys.argv[2]) if len(sys.argv) > 2 else 20
    sent = list(jobs(count))
    start = time.perf_counter()
    got = list(answers(sent))
    piped = (time.perf_counter() - start) / count
    start = time.perf_counter()
    same = [answer_alone(job) == answer for job, answer in zip(sent[:alone], got)]
    single = (time.perf_counter() - start) / len(same)
    refused = sum(answer["format"] == "masstone/refusal" for answer in got)
    print(f"{len(got)} answers to {count} jobs, {refused} refused")
    print(f"{sum(same)} of {len(same)} the same as from a process of their own")
    print(f"{1000 * piped:.1f} ms a job in one process, {1000 * single:.0f} ms in one each: {single / piped:.1f} times")


if __name__ == "__main__":
    main()
