import react from "@vitejs/plugin-react";
import { defineConfig } from "vitest/config";

export default defineConfig({
  // Relative addresses: the built app runs from any folder of a static host.
  base: "./",
  plugins: [react()],
  worker: { format: "es" },
  build: {
    // What the first screen needs comes as one file: forty small ones are larger together, and slower to fetch.
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: "first", tags: ["$initial"] }] } } },
  },
  test: {
    include: ["test/**/*.test.{ts,tsx}"],
    // Against a test that hangs, and nothing else: a slow machine must not fail a right answer.
    testTimeout: 1_800_000,
  },
});
