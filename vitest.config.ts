import { defineConfig } from "vitest/config";

/** Tests of the page, in a real browser and in a stand-in for one. */
const ofPage = ["test/browser/**/*.test.ts", "test/renderer/**/*.test.{ts,tsx}"];

export default defineConfig({
  test: {
    setupFiles: ["test/setup.ts"],
    // A limit for what hangs; a busy machine is several times slower than an idle one.
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // What is waited for comes when it comes: a busy machine is not a fault.
    expect: { poll: { timeout: 10_000 } },
    maxWorkers: 2,
    projects: [
      { extends: true, test: { name: "program", include: ["test/**/*.test.{ts,tsx}"], exclude: ofPage } },
      // When a page is drawn, takes a key or hands on a file is not ours to time: what failed is tried once more, and is told as flaky.
      { extends: true, test: { name: "page", include: ofPage, retry: 1 } },
    ],
  },
});
