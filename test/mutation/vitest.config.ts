import { defineConfig } from "vitest/config";

/** The tests that may kill a mutant: those of the mutated layers and of the layers right above them. */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    include: [
      "test/{core,numeric,certified,spectra,colorimetry,optics,surface,toners,tolerance,prediction,correction}/**/*.test.ts",
    ],
    setupFiles: ["test/mutation/fixSeed.ts"],
    testTimeout: 30_000,
  },
});
