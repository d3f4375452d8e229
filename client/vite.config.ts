import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vitest/config";

export default defineConfig(({ mode }) => ({
  base: "/",
  plugins: [svelte()],
  // Without the browser condition the tests would get Svelte's server build, which cannot mount.
  resolve: mode === "test" ? { conditions: ["browser"] } : {},
  build: {
    outDir: "../src/cupwright/web/static",
    emptyOutDir: true,
    target: "es2022",
  },
  server: { proxy: { "/api": "http://127.0.0.1:8000" } },
  test: {
    // A page costs each file a second of the processor: a test that needs one says so in its first line,
    // `// @vitest-environment happy-dom`.
    environment: "node",
    pool: "threads",
    include: ["src/**/*.test.ts"],
    // happy-dom has no IndexedDB
    setupFiles: ["fake-indexeddb/auto"],
    passWithNoTests: false,
  },
}));
