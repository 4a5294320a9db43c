import { defineConfig } from "vitest/config";

const layer = process.env.MUTATED_LAYER;
if (!layer) throw new Error("MUTATED_LAYER says whose tests are meant: see run.mjs");

/** A mutant must be killed by the tests of its own layer. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    include: [`test/${layer}/**/*.test.ts`],
    setupFiles: ["test/mutation/fixSeed.ts"],
    testTimeout: 30_000,
  },
});
