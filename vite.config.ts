import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

/** The page: no inline script or style and no data: address, as its content policy wants. */
export default defineConfig({
  root: "renderer",
  base: "./",
  plugins: [react()],
  logLevel: "warn",
  build: {
    outDir: "../dist/page",
    emptyOutDir: true,
    target: "es2024",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    sourcemap: false,
    // The page comes from this machine: one file of 600 kB is no wait.
    chunkSizeWarningLimit: 2_000,
  },
});
