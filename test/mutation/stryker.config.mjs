/** Options of Stryker; run.mjs adds what to mutate and where the results go. */
export default {
  testRunner: "vitest",
  vitest: { configFile: "test/mutation/vitest.config.ts" },
  plugins: [
    import.meta.resolve("@stryker-mutator/vitest-runner"),
    import.meta.resolve("./ignoreWording.mjs"),
    import.meta.resolve("./sampleStatements.mjs"),
  ],
  ignorers: ["wording", "sample"],
  coverageAnalysis: "perTest",
  concurrency: 1,
  // Long, so that a machine that is busy with something else does not count as an endless loop; better run it alone.
  timeoutMS: 30_000,
  reporters: ["json", "progress-append-only"],
  tempDirName: "coverage/mutation/sandbox",
  ignorePatterns: ["dist", "docs", "coverage", "benchmarks"],
  disableTypeChecks: true,
  allowEmpty: false,
};
