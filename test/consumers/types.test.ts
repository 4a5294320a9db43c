import { writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Consumer, doors, makeConsumer } from "../package/consumer.js";

let consumer: Consumer;

beforeAll(() => {
  consumer = makeConsumer();
}, 120_000);

afterAll(() => consumer?.remove());

const compiler = createRequire(import.meta.url).resolve("typescript/bin/tsc");

/** What a typed program does with the package; each line under an expected error must be refused. */
const PROGRAM = `
${doors.map((door, i) => `import * as door${i} from "${door}";`).join("\n")}
import { correct, InputError, predict, type Correction, type Job } from "masstone";
import { readJob, readToners } from "masstone/formats";
import { film } from "masstone/optics";

const job: Job = readJob("{}", () => readToners("{}"));
const answer: Correction = correct(job);
const grams: number = answer.additions.reduce((sum, { grams }) => sum + grams, 0);
switch (answer.status) {
  case "corrected": case "good-enough": case "out-of-reach": case "undetermined": case "by-eye": case "respray": case "other-flake": break;
  default: { const never: never = answer; void never; }
}
const place = (error: unknown): string => (error instanceof InputError ? error.path : "");
export { grams, place, ${doors.map((_, i) => `door${i}`).join(", ")} };
// @ts-expect-error: an answer has no such status
export const wrong = answer.status === "perfect";
// @ts-expect-error: a job is a record
correct("job.json");
// @ts-expect-error: a mix has toners
predict({ grams: { white: 1 } });
// @ts-expect-error: numbers, not texts
film("1", 2, 0.5);
export const lit: Job["viewing"] = { observer: "1964-10", illuminants: [{ name: "D65" }, { name: "D6000K" }] };
// @ts-expect-error: there is no illuminant D66
export const unlit: Job["viewing"] = { observer: "1964-10", illuminants: [{ name: "D66" }] };
// @ts-expect-error: there is no geometry 0:45
export const unread: Job["card"] = { readings: [{ geometry: "0:45", grid: { start: 400, step: 10, count: 31 }, reflectance: [] }] };
// @ts-expect-error: limits know no maxPour
export const unlimited: Job["limits"] = { maxPour: 3 };
// @ts-expect-error: answers are read-only
answer.additions.length = 0;
`;

/** Strict, without types of Node or of the browser, and with our declarations checked too. */
const OPTIONS = {
  strict: true,
  exactOptionalPropertyTypes: true,
  noUncheckedIndexedAccess: true,
  skipLibCheck: false,
  noEmit: true,
  target: "ES2022",
  lib: ["ES2022"],
  types: [],
};

/** In each, every file is a module of the kind that its ending or the setting makes it. */
const SETTINGS = [
  {
    moduleResolution: "node10",
    module: "CommonJS",
    esModuleInterop: true,
    ignoreDeprecations: "6.0",
    files: ["program.ts"],
  },
  { moduleResolution: "bundler", module: "ESNext", files: ["program.ts"] },
  { moduleResolution: "node16", module: "Node16", files: ["program.mts", "program.cts"] },
  { moduleResolution: "nodenext", module: "NodeNext", files: ["program.mts", "program.cts"] },
];

describe("a strict TypeScript program", () => {
  it.each(SETTINGS)(
    "is compiled with moduleResolution $moduleResolution",
    ({ files, ...how }) => {
      for (const file of files) writeFileSync(join(consumer.folder, file), PROGRAM);
      const project = JSON.stringify({ compilerOptions: { ...OPTIONS, ...how }, files });
      const { status, stdout } = consumer.node({ "tsconfig.json": project }, compiler, "-p", ".");
      expect(stdout).toBe("");
      expect(status).toBe(0);
    },
    120_000,
  );
});
