import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.test.{ts,tsx}"],
    setupFiles: ["test/setup.ts"],
    testTimeout: 20_000,
    hookTimeout: 120_000,
    // What is waited for comes when it comes: a busy machine is not a fault.
    expect: { poll: { timeout: 10_000 } },
    maxWorkers: 2,
  },
});
