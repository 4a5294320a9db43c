import { defineConfig } from "vitest/config";

const tests = process.env.MUTATED_TESTS;
if (!tests) throw new Error("MUTATED_TESTS says which tests are meant: see run.mjs");

/** A mutant must be killed by the tests of its own part: files and folders of test. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    include: (JSON.parse(tests) as readonly string[]).map((path) =>
      path.endsWith(".test.ts") ? path : `${path}/**/*.test.ts`,
    ),
    setupFiles: ["test/mutation/fixSeed.ts"],
    testTimeout: 30_000,
  },
});
