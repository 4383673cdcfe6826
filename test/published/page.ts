import { readFileSync } from "node:fs";
import { format } from "prettier";
import type { Case } from "./case.ts";

/** The validation page: for each model the head of its own file, then its checks with what the product computes. */
export function validationPage(models: readonly string[], cases: readonly Case[]): Promise<string> {
  const parts = [
    "# Validation of the models",
    "Every model of this folder, and of `src/terrain` those with a published or closed form, what it rests on, where it holds and what it does not cover, in the words at the head " +
      "of its file; then each check: the value outside, where that was read, what the model computes and the " +
      "difference. A model under `reference/` is not in the product: it is what others, or defaults, are held against " +
      "(`test/published/models`). The page is written from the checks themselves (`npx vitest run test/published -u`), and a test " +
      "fails when it is stale.",
    "Read in: **published**, in the source or an abstract of it; **as quoted**, where another text quotes it; " +
      "**value from memory**, with no text at hand; **arithmetic**, worked from the formula by hand; **reference**, " +
      "computed by another route. A planning and training aid only: these checks do not make it flight software.",
  ];
  parts.push(overview(models, cases));
  for (const model of models) {
    parts.push(`## ${model}`, headOf(model), table(cases.filter((one) => one.model === model)));
  }
  return format(parts.join("\n\n"), { parser: "markdown", printWidth: 110 });
}

/** The words of the first comment block of a model's file, one paragraph, safe for a page. */
export function headOf(model: string): string {
  const [room, name] = model.split("/");
  const file = room === "reference" ? `models/${name}` : `../../src/${name ? model : `physics/${model}`}`;
  const text = readFileSync(new URL(`${file}.ts`, import.meta.url), "utf8");
  const block = /\/\*\*([\s\S]*?)\*\//.exec(text)?.[1] ?? "";
  const lines = block.split("\n").map((line) => line.replace(/^\s*\*? ?/, "").trim());
  return lines
    .join("\n")
    .trim()
    .split(/\n{2,}/)
    .map((paragraph) => paragraph.replaceAll("\n", " "))
    .join("\n\n");
}

/** One line a model: where it holds, what it leaves out, how many checks it has. */
function overview(models: readonly string[], cases: readonly Case[]): string {
  const rows = models.map((model) => {
    const head = headOf(model).replaceAll("\n", " ");
    const range = /Range: (.*?)(?= Not covered:|$)/.exec(head)?.[1] ?? "";
    const beyond = /Not covered: (.*)$/.exec(head)?.[1] ?? "";
    return `| ${[model, range, beyond, cases.filter((one) => one.model === model).length].join(" | ")} |`;
  });
  return ["| model | range of use | what it does not cover | checks |", "|---|---|---|---|", ...rows].join(
    "\n",
  );
}

function table(cases: readonly Case[]): string {
  const rows = cases.map((one) => {
    const ours = one.ours();
    return `| ${[one.what, one.source, one.provenance, one.unit, wanted(one.value), short(ours), difference(one, ours)].join(" | ")} |`;
  });
  return [
    "| check | source | read in | unit | value | ours | difference |",
    "|---|---|---|---|---|---|---|",
    ...rows,
  ].join("\n");
}

function wanted(value: Case["value"]): string {
  if (typeof value === "number") return short(value);
  const [low, high] = value;
  return high === Infinity ? `at least ${short(low)}` : `${short(low)} to ${short(high)}`;
}

function difference(one: Case, ours: number): string {
  if (typeof one.value !== "number") return "inside";
  const off = Number((ours - one.value).toPrecision(2));
  return `${off === 0 ? "0" : off.toString()} (allowed ${short(one.within)})`;
}

function short(value: number): string {
  return Number(value.toPrecision(6)).toString();
}
