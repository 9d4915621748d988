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
  },
  worker: { format: "es" },
});
