import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { characterise } from "../../src/characterisation/characterise.js";
import { correct } from "../../src/correction/correct.js";
import { readJob } from "../../src/formats/jobFile.js";
import { readSamples } from "../../src/formats/samplesFile.js";
import { readToners } from "../../src/formats/tonersFile.js";
import { root } from "../package/consumer.js";

const folder = join(root, "examples/effect");
const text = (name: string) => readFileSync(join(folder, name), "utf8");
const job = (name: string) => readJob(text(name), (set) => readToners(text(set)), text);

describe("the example of effect toners", () => {
  it("is written by make.mjs as it is there", () => {
    const out = mkdtempSync(join(tmpdir(), "masstone-effect-"));
    try {
      const { status, stderr } = spawnSync(process.execPath, ["examples/effect/make.mjs", out], {
        cwd: root,
        encoding: "utf8",
      });
      expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
      const written = readdirSync(out);
      expect([...written, "make.mjs"].sort()).toEqual(readdirSync(folder).sort());
      for (const name of written) expect(readFileSync(join(out, name), "utf8")).toBe(text(name));
    } finally {
      rmSync(out, { recursive: true });
    }
  });

  it("gives toners that know what spraying does, and how bright a face may be", () => {
    const { toners } = characterise(readSamples(text("samples.json"), text).job);
    const knowing = toners.toners.filter(({ orientation }) => orientation).map(({ id }) => id);
    expect(knowing).toEqual(["coarse-silver", "blue-pearl"]);
    for (const { orientation } of toners.toners) {
      if (!orientation) continue;
      // Steeper flakes send less back near the mirror's angle, more at the flop.
      expect(orientation["45as15"]?.slope).toBeLessThan(-1);
      expect(orientation["45as45"]?.slope).toBeGreaterThan(1);
    }
    expect(toners.surfaces.map(({ brightness = 1 }) => brightness > 1)).toEqual([
      ...[true, true, true],
      ...[false, false, false],
    ]);
  });

  it("says that the door was sprayed flatter, and after a card sprayed so what to pour", () => {
    const first = correct(job("job.json"));
    expect([first.status, first.additions]).toEqual(["respray", []]);
    expect(first.spray?.tilt).toBeLessThan(-0.1);
    const second = correct(job("second-card.json"));
    expect(second.status).toBe("corrected");
    // The door has more blue and black than the pot; white would tilt the flake.
    const poured = second.additions.map(({ toner }) => toner);
    expect(poured).toContain("blue");
    expect(poured).not.toContain("white");
    expect(second.weightedDeltaE00.before).toBeLessThan(first.weightedDeltaE00.before / 2);
  });
});
