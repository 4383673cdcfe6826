import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { booklets, daySheet, stampOf } from "../../../src/exchange/paper/index.ts";
import { samplePlan } from "../../exchange/samplePlan.ts";
import { contrast, over, rgb, type Rgb, themeColours, THEMES } from "./colour.ts";

/** WCAG 2.2, 1.4.3 and 1.4.11: text 4.5 to 1, what is drawn and carries meaning 3 to 1. */
const TEXT = 4.5;
const DRAWN = 3;

/** Grounds that any text may lie on. */
const GROUNDS = ["paper", "raised", "sunk"];

/** Every colour that text has on screen, and the grounds it has besides those three. */
const TEXT_ON: Readonly<Record<string, readonly string[]>> = {
  ink: [
    ...["outing", "night", "meal", "stock", "sampling", "deployment", "survey", "upkeep"],
    ...["accent-wash", "breach-wash", "tight-wash", "open-wash", "fit-wash"],
  ],
  "ink-soft": ["outing", "night", "meal", "accent-wash", "breach-wash", "tight-wash", "open-wash"],
  accent: ["outing", "accent-wash"],
  fit: ["outing", "fit-wash"],
  breach: ["outing", "breach-wash"],
  ceiling: ["outing"],
  tight: ["outing", "tight-wash"],
  open: ["open-wash"],
  fine: ["accent-wash"],
  "crew-one": ["outing"],
  "crew-two": ["outing"],
  "crew-three": ["outing"],
  "crew-four": ["outing"],
};

/** Text turned over: its colour and the one ground it has. */
const TURNED: readonly (readonly [text: string, ground: string])[] = [
  ["paper", "ink"],
  ["raised", "ink"],
  ["on-accent", "accent"],
  ["on-breach", "breach"],
  ["on-tight", "tight"],
  ["raised", "crew-one"],
  ["raised", "crew-two"],
  ["raised", "crew-three"],
  ["raised", "crew-four"],
];

/** Lines and signs that carry meaning, on what they are drawn. */
const LINES: readonly (readonly [line: string, grounds: readonly string[]])[] = [
  ["line-strong", [...GROUNDS, "outing"]],
  ["traverse", ["outing"]],
  ["ceiling", ["paper", "outing"]],
  ["reserve", ["paper", "sunk"]],
  ["relay", ["paper"]],
  ["sun", ["paper"]],
  ["fit", ["paper", "outing"]],
  ["accent", ["paper", "outing", "sunk"]],
  ["focus", GROUNDS],
  ["ink", ["stock", "sunk"]],
  ["ink-soft", ["paper", "sunk"]],
  ["breach", ["paper", "outing", "sunk"]],
  ["tight", ["paper", "outing", "sunk"]],
  ["sampling-hatch", ["sampling"]],
  ["deployment-hatch", ["deployment"]],
  ["survey-hatch", ["survey"]],
  ["upkeep-hatch", ["upkeep"]],
];

const sheets = readdirSync("src/screens", { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".css") && !name.endsWith("tokens.css"))
  .map((name) => ({ name, css: readFileSync(join("src/screens", name), "utf8") }));

/** Rules of a sheet with the token of their text and of their ground, where they set one. */
function rulesOf(css: string): readonly { text: string | null; ground: string | null; head: string }[] {
  const plain = css.replace(/\/\*[^]*?\*\//g, "");
  return [...plain.matchAll(/([^{}]+)\{([^{}]*)\}/g)].map(([, head, body]) => ({
    head: head!.trim(),
    text: /(?:^|[;\s])color:\s*var\(--([a-z-]+)\)/.exec(body!)?.[1] ?? null,
    ground: /(?:^|[;\s])background(?:-color)?:\s*var\(--([a-z-]+)\)/.exec(body!)?.[1] ?? null,
  }));
}

describe("style sheets", () => {
  it("give text no colour that is not held here", () => {
    const held = new Set([...Object.keys(TEXT_ON), ...TURNED.map(([text]) => text)]);
    const strange = sheets.flatMap(({ name, css }) =>
      rulesOf(css).flatMap(({ text, head }) => (text === null || held.has(text) ? [] : [`${name}: ${head}`])),
    );
    expect(strange).toEqual([]);
    expect(sheets.length).toBeGreaterThan(8);
  });

  it.each(THEMES)("hold every pair that one rule sets, %s", (theme) => {
    const { of } = themeColours(theme);
    const pairs = sheets.flatMap(({ name, css }) =>
      rulesOf(css).flatMap(({ text, ground, head }) =>
        text === null || ground === null ? [] : [{ where: `${name}: ${head}`, text, ground }],
      ),
    );
    expect(pairs.length).toBeGreaterThan(20);
    for (const { where, text, ground } of pairs)
      expect(contrast(of(text), of(ground)), `${where}: ${text} on ${ground}`).toBeGreaterThanOrEqual(TEXT);
  });
});

describe.each(THEMES)("%s theme", (theme) => {
  const { of, names } = themeColours(theme);

  it("reads black on white as 21 to 1, so the measure is right", () => {
    expect(contrast(rgb("#000000"), rgb("#ffffff"))).toBeCloseTo(21, 5);
  });

  it.each(Object.entries(TEXT_ON))("text in --%s reads 4.5 to 1 wherever it lies", (text, more) => {
    for (const ground of [...GROUNDS, ...more])
      expect(contrast(of(text), of(ground)), ground).toBeGreaterThanOrEqual(TEXT);
  });

  it.each(TURNED)("text in --%s reads 4.5 to 1 on --%s", (text, ground) => {
    expect(contrast(of(text), of(ground))).toBeGreaterThanOrEqual(TEXT);
  });

  it("words over the wash of where a task fits read 4.5 to 1", () => {
    for (const ground of ["outing", "paper", "sunk"])
      expect(contrast(of("fit"), over(of("fit-wash"), of(ground), 0.45)), ground).toBeGreaterThanOrEqual(
        TEXT,
      );
  });

  it.each(LINES)("--%s stands out 3 to 1 from what it is drawn on", (line, grounds) => {
    for (const ground of grounds)
      expect(contrast(of(line), of(ground)), ground).toBeGreaterThanOrEqual(DRAWN);
  });

  it("has every colour of the other theme", () => {
    expect([...names].sort()).toEqual([...themeColours("light").names].sort());
  });
});

describe("paper", () => {
  it("has every word 4.5 to 1 and every line 3 to 1 on white and on what is filled below it", () => {
    const plan = samplePlan();
    const verdict = check(plan, plan.schedule);
    const pages = [
      ...booklets(plan, verdict).pages,
      ...daySheet(plan, verdict, stampOf(plan, verdict, 0)).pages,
    ];
    let words = 0;
    for (const page of pages) {
      for (const [i, mark] of page.marks.entries()) {
        if (mark.kind === "rect") continue;
        const ink = grey(mark.ink);
        if (mark.kind === "lines") {
          expect(contrast(ink, grey(1)), page.name).toBeGreaterThanOrEqual(DRAWN);
          continue;
        }
        words += 1;
        const below = page.marks
          .slice(0, i)
          .findLast(
            (one) =>
              one.kind === "rect" &&
              one.fill !== null &&
              mark.x >= one.x - 0.01 &&
              mark.x <= one.x + one.w &&
              mark.y >= one.y &&
              mark.y <= one.y + one.h,
          );
        const fill = below?.kind === "rect" ? (below.fill ?? 1) : 1;
        expect(contrast(ink, grey(fill)), `${page.name}: ${mark.text}`).toBeGreaterThanOrEqual(TEXT);
      }
    }
    expect(words).toBeGreaterThan(200);
  });
});

function grey(share: number): Rgb {
  const code = Math.round(share * 255)
    .toString(16)
    .padStart(2, "0");
  return rgb(`#${code}${code}${code}`);
}
