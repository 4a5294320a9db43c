import { describe, expect, it } from "vitest";
import { horseboxToners } from "../../fixtures/horsebox.js";
import { FOLDER_VARIABLE, readOpenData, whatIsMissing } from "../../real-paint/openData.js";
import { compare, EQUAL } from "./bruteForce.js";
import { randomJob } from "./randomJobs.js";

const JOBS = 50;

const folder = process.env[FOLDER_VARIABLE];
const missing = whatIsMissing(folder);
const sets = [
  { name: "invented toners", set: horseboxToners },
  { name: "measured paints", set: () => readOpenData(folder ?? "").toners },
];

describe("the best of each number of pours", () => {
  it.each(sets)(
    "is the best of all mixes, each tried: $name",
    ({ name, set }) => {
      // The measured data are not ours to ship.
      if (name === "measured paints" && missing) {
        console.warn(`skipped: ${missing}`);
        return;
      }
      const toners = set();
      let compared = 0;
      for (let seed = 1; compared < JOBS; seed++) {
        const job = randomJob(toners, seed);
        const comparisons = compare(job);
        for (const { pours, ours, best, additions, bestAdditions } of comparisons) {
          const where = { seed, pours, ours, best, additions, bestAdditions };
          expect(Math.abs(ours - best), JSON.stringify(where)).toBeLessThanOrEqual(EQUAL);
        }
        compared += Number(comparisons.length > 0);
      }
    },
    300_000,
  );
});
