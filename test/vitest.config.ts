import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: new URL("..", import.meta.url).pathname,
  test: {
    include: ["test/**/*.test.{ts,mjs}"],
    testTimeout: 120_000,
    // Most of the time goes by in processes that a test waits for, so no core is kept back.
    maxWorkers: availableParallelism(),
  },
});
