import react from "@vitejs/plugin-react";
import { defineConfig } from "vitest/config";
import { POLICY, release, WORKER } from "./.config/release/index.ts";

const OFFLINE = "src/offline.ts";

export default defineConfig({
  // Relative addresses: the built app runs from any folder of a static host.
  base: "./",
  plugins: [react(), release()],
  worker: { format: "es" },
  preview: { headers: { "Content-Security-Policy": POLICY } },
  build: {
    // What the policy of the page does not let in as data is a file of its own.
    assetsInlineLimit: 0,
    rolldownOptions: {
      input: { index: "index.html", program: "src/main.tsx", offline: OFFLINE },
      output: {
        entryFileNames: (chunk) => (chunk.name === "offline" ? WORKER : "assets/[name]-[hash].js"),
        codeSplitting: {
          // What the first picture needs comes as one file, and what the first screen needs beside it as another: forty small ones are
          // larger together, and slower to fetch.
          groups: [
            { name: "glimpse", test: /(index\.html|src[\\/]glimpse\.ts)$|^\0vite\//, priority: 1 },
            { name: "first", tags: ["$initial"], test: (id) => !id.endsWith(OFFLINE) },
          ],
        },
      },
    },
  },
  test: {
    setupFiles: ["test/seeds.ts"],
    projects: [
      { extends: true, test: { name: "unit", include: ["test/**/*.test.{ts,tsx}"] } },
      // Laws and reference solvers that take minutes.
      { extends: true, test: { name: "hunt", include: ["test/**/*.hunt.ts"] } },
    ],
    // Against a test that hangs, and nothing else: a slow machine must not fail a right answer.
    testTimeout: 1_800_000,
  },
});
