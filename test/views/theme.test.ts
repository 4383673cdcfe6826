import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

/** The palette as it is written in the tokens, held to what its head promises. */
const css = readFileSync("src/views/theme/tokens.css", "utf8");

function tokens(selector: string): Record<string, string> {
  const start = css.indexOf(selector);
  const block = css.slice(css.indexOf("{", start) + 1, css.indexOf("}", start));
  return Object.fromEntries(
    [...block.matchAll(/--([a-z-]+):\s*(#[0-9a-f]{6});/g)].map((match) => [match[1]!, match[2]!]),
  );
}

const themes = { light: tokens('[data-theme="light"]'), dark: tokens('[data-theme="dark"] {') };

function rgb(hex: string): readonly [number, number, number] {
  const linear = (at: number): number => {
    const value = parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [linear(1), linear(3), linear(5)];
}

/** Contrast of two colours after WCAG 2.2. */
function contrast(a: string, b: string): number {
  const luminance = (hex: string): number => {
    const [red, green, blue] = rgb(hex);
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [high, low] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

describe.each(Object.entries(themes))("%s theme", (_, theme) => {
  const colour = (name: string): string => {
    const value = theme[name];
    if (!value) throw new Error(`no colour --${name}`);
    return value;
  };

  it("reads black on white as 21 to 1, so the measure is right", () => {
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 5);
  });

  it.each(["ink", "ink-soft", "accent", "breach", "tight", "open", "fine"])(
    "text in --%s reads 4.5 to 1 on every ground",
    (name) => {
      for (const ground of ["paper", "raised", "sunk"]) {
        expect(contrast(colour(name), colour(ground))).toBeGreaterThanOrEqual(4.5);
      }
    },
  );

  it.each(["accent", "breach", "tight", "open"])("text on --%s and on its wash reads 4.5 to 1", (name) => {
    expect(contrast(colour(`on-${name}`), colour(name))).toBeGreaterThanOrEqual(4.5);
    const wash = colour(`${name}-wash`);
    expect(contrast(colour("ink"), wash)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(colour(name), wash)).toBeGreaterThanOrEqual(4.5);
  });

  it.each(["sampling", "deployment", "survey", "upkeep", "outing", "night", "meal", "stock"])(
    "names on --%s read 4.5 to 1",
    (name) => {
      expect(contrast(colour("ink"), colour(name))).toBeGreaterThanOrEqual(4.5);
    },
  );

  it.each(["line-strong", "traverse", "ceiling", "relay", "sun", "fit", "focus"])(
    "lines in --%s stand out 3 to 1 from paper and outing",
    (name) => {
      expect(contrast(colour(name), colour("paper"))).toBeGreaterThanOrEqual(3);
      expect(contrast(colour(name), colour("outing"))).toBeGreaterThanOrEqual(3);
    },
  );

  it("has every colour of the other theme", () => {
    expect(Object.keys(theme).sort()).toEqual(Object.keys(themes.light).sort());
  });

  /** Full red, green and blue deficiency after Machado, Oliveira & Fernandes 2009; values from memory. */
  const DEFICIENCIES = {
    none: [1, 0, 0, 0, 1, 0, 0, 0, 1],
    protan: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
    deutan: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
    tritan: [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
  };

  it.each(Object.entries(DEFICIENCIES))("states stay apart for %s colour vision", (_name, matrix) => {
    for (let row = 0; row < 3; row += 1) {
      expect(matrix.slice(3 * row, 3 * row + 3).reduce((a, b) => a + b)).toBeCloseTo(1, 3);
    }
    const seen = (name: string) => lab(apply(matrix, rgb(colour(name))));
    const states = ["breach", "tight", "accent", "ink"];
    states.forEach((a, i) => {
      for (const b of states.slice(i + 1)) {
        const away = Math.hypot(...seen(a).map((value, k) => value - seen(b)[k]!));
        // Ten is several just noticeable differences; shapes and words carry the rest.
        expect(away, `${a} and ${b}`).toBeGreaterThan(10);
      }
    });
  });
});

function apply(matrix: readonly number[], colour: readonly number[]): number[] {
  return [0, 1, 2].map((row) =>
    Math.min(
      1,
      Math.max(
        0,
        [0, 1, 2].reduce((sum, k) => sum + matrix[3 * row + k]! * colour[k]!, 0),
      ),
    ),
  );
}

/** CIELAB of linear sRGB, D65. */
function lab([red, green, blue]: readonly number[]): number[] {
  const f = (t: number): number => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const x = f((0.4124 * red! + 0.3576 * green! + 0.1805 * blue!) / 0.9505);
  const y = f(0.2126 * red! + 0.7152 * green! + 0.0722 * blue!);
  const z = f((0.0193 * red! + 0.1192 * green! + 0.9505 * blue!) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}
