import tseslint from "typescript-eslint";
import reactHooks from "eslint-plugin-react-hooks";
import sonarjs from "eslint-plugin-sonarjs";

const pureRooms = [
  "kernel",
  "physics",
  "terrain",
  "plan",
  "rules",
  "answers",
  "check",
  "solver",
  "editor",
  "exchange",
];

export default tseslint.config(
  { ignores: ["dist", "node_modules", "public", "test-results", "playwright-report"] },
  ...tseslint.configs.strict,
  {
    rules: {
      "@typescript-eslint/consistent-type-imports": "error",
      // `noUncheckedIndexedAccess` makes flat-array code assert what its loop bounds already prove.
      "@typescript-eslint/no-non-null-assertion": "off",
      "@typescript-eslint/no-dynamic-delete": "off",
      "no-console": "error",
      eqeqeq: "error",
    },
  },
  {
    files: pureRooms.map((room) => `src/${room}/**`),
    rules: {
      "no-restricted-globals": ["error", "window", "document", "navigator", "localStorage", "indexedDB"],
      "no-restricted-properties": [
        "error",
        { object: "Math", property: "random", message: "Randomness is a seeded parameter: kernel/random." },
        { object: "Date", property: "now", message: "The clock is a parameter." },
        { object: "performance", property: "now", message: "The clock is a parameter." },
      ],
    },
  },
  {
    files: ["src/**"],
    plugins: { sonarjs },
    rules: {
      // A function is no longer than a screen, and can be followed without a pencil (Campbell 2018, cognitive complexity).
      "max-lines-per-function": ["error", { max: 60, skipBlankLines: true, skipComments: true }],
      "sonarjs/cognitive-complexity": ["error", 15],
    },
  },
  {
    files: ["src/screens/**", "src/main.tsx"],
    plugins: { "react-hooks": reactHooks },
    rules: {
      "react-hooks/rules-of-hooks": "error",
      "react-hooks/exhaustive-deps": "error",
    },
  },
  {
    files: ["e2e/*.spec.ts"],
    rules: {
      "no-restricted-syntax": [
        "error",
        {
          selector: "Property[key.name='timeout']",
          message: "How long a right answer may take is said once, in e2e/playwright.config.ts.",
        },
        {
          selector: "CallExpression[callee.property.name='waitForTimeout']",
          message: "Wait for what is to be seen, not for a while.",
        },
      ],
    },
  },
  { files: ["src/cli/**", "test/bench/**", "test/fuzz/main.ts", "e2e/**"], rules: { "no-console": "off" } },
);
