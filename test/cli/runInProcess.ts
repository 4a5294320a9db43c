import { createDisk } from "../../src/cli/createDisk.js";
import { run } from "../../src/cli/run.js";

/** A command line on the real disk, without a process of its own, and what it said. */
export async function runInProcess(...args: readonly string[]) {
  let out = "";
  let error = "";
  const code = await run(args, {
    ...createDisk(),
    program: "masstone",
    now: () => "2026-03-31T14:05:00.000Z",
    write: (text) => {
      out += text;
    },
    isRead: () => true,
    writeError: (text) => {
      error += text;
    },
    isWatched: false,
    isStyled: false,
  });
  return { code, out, error };
}
