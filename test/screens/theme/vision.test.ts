import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { type Brush } from "../../../src/screens/parts/canvas/brush.ts";
import { paintGhost, stateMark } from "../../../src/screens/day/line/paintblocks.ts";
import { type Hatch, HATCHINGS, hatching } from "../../../src/screens/parts/canvas/tiles.ts";
import { CREW_STYLES } from "../../../src/screens/site/crewstyle.ts";
import { TONES } from "../../../src/screens/site/paintground.ts";
import type { Palette } from "../../../src/screens/theme/palette.ts";
import { CONSUMABLE_WORDS, KIND_LETTERS, LEVEL_WORDS } from "../../../src/screens/words.ts";
import { apart, ciede2000, type Lab, over, type Rgb, SIGHTS, themeColours, THEMES } from "./colour.ts";
import { SIGNS } from "../../../src/screens/day/signs.ts";
import { recorder } from "./recorder.ts";

/**
 * Colours that mean different things beside each other stay apart to every eye: by colour alone, or by a second
 * channel that is named and looked at here. One CIEDE2000 is about the least that is seen side by side, so ten is plain.
 */
const LEAST_APART = 10;

const KINDS = ["sampling", "deployment", "survey", "upkeep"] as const;

/** What colour alone tells apart. Each group stands on one screen, in one picture. */
const BY_COLOUR: Readonly<Record<string, readonly string[]>> = {
  "kinds of task": KINDS,
  "levels of a finding, and what is good": ["breach", "tight", "open", "fine"],
  "a state and plain text": ["breach", "tight", "accent", "ink"],
  "crew members on the map": CREW_STYLES.map((style) => style.colour),
  "tasks in the strip of the stay: must-do, optional, breach, tight": [
    "ink",
    "line-strong",
    "breach",
    "tight",
    "outing",
  ],
  "what a suit holds, its reserve, what is missing, other consumables": [
    "stock",
    "reserve",
    "breach",
    "ink",
    "paper",
  ],
  "reach and the longest walk home allowed": ["ceiling", "ink", "outing"],
  "where a task fits and where it is too far": ["fit", "ceiling", "outing"],
  "relay and sun": ["relay", "sun", "paper"],
  "what is chosen and what is broken": ["accent", "breach"],
};

describe("the measure", () => {
  // Table 1 of Sharma, Wu & Dalal, Color Res. Appl. 30:21 (2005): pairs 1, 2, 4, 17 to 20, and 31.
  it.each<[Lab, Lab, number]>([
    [[50, 2.6772, -79.7751], [50, 0, -82.7485], 2.0425],
    [[50, 3.1571, -77.2803], [50, 0, -82.7485], 2.8615],
    [[50, -1.3802, -84.2814], [50, 0, -82.7485], 1],
    [[50, 2.5, 0], [73, 25, -18], 27.1492],
    [[50, 2.5, 0], [61, -5, 29], 22.8977],
    [[50, 2.5, 0], [56, -27, -3], 31.903],
    [[50, 2.5, 0], [58, 24, 15], 19.4535],
  ])("CIEDE2000 of %j and %j is %d", (a, b, expected) => {
    expect(ciede2000(a, b)).toBeCloseTo(expected, 4);
    expect(ciede2000(b, a)).toBeCloseTo(expected, 4);
  });

  it("a missing cone leaves white white and takes away what only it tells apart", () => {
    const grey: Rgb = [0.4, 0.4, 0.4];
    const red: Rgb = [0.5, 0.1, 0.1];
    const green: Rgb = [0.12, 0.3, 0.1];
    for (const sight of SIGHTS) expect(apart(grey, [0.4, 0.4, 0.4], sight)).toBe(0);
    expect(apart(red, green, "full")).toBeGreaterThan(50);
    expect(apart(red, green, "deuteranopia")).toBeLessThan(25);
  });
});

describe.each(THEMES)("%s theme", (theme) => {
  const { of } = themeColours(theme);

  describe.each(SIGHTS)("to eyes with %s sight", (sight) => {
    it.each(Object.entries(BY_COLOUR))("%s are told apart by colour", (_what, names) => {
      for (const [i, a] of names.entries())
        for (const b of names.slice(i + 1))
          expect(apart(of(a), of(b), sight), `${a} and ${b}`).toBeGreaterThan(LEAST_APART);
    });

    it("bands of the odds: the middle half, nine days in ten, and the ground", () => {
      const ground = of("outing");
      const bands = [ground, over(of("accent"), ground, 0.28), over(of("accent"), ground, 0.62), of("ink")];
      for (const [i, a] of bands.entries())
        for (const b of bands.slice(i + 1)) expect(apart(a, b, sight)).toBeGreaterThan(LEAST_APART);
    });

    it("ground in the sun and ground in shadow", () => {
      const { ramp, shadow } = TONES[theme];
      const [, level, brightest] = ramp;
      expect(apart(linear(shadow), linear(level), sight)).toBeGreaterThan(LEAST_APART);
      expect(apart(linear(shadow), linear(brightest), sight)).toBeGreaterThan(LEAST_APART);
    });
  });
});

/** What colour does not tell apart to every eye, and the second channel that does. */
describe("the second channel", () => {
  const known = globalThis.OffscreenCanvas;
  const drawn: string[][] = [];
  beforeEach(() => {
    drawn.length = 0;
    class Tile {
      getContext() {
        const record = recorder();
        drawn.push(record.calls);
        return record.ctx;
      }
    }
    Object.assign(globalThis, {
      OffscreenCanvas: Tile,
      DOMMatrix: class {
        scale() {
          return this;
        }
      },
    });
  });
  afterEach(() => void Object.assign(globalThis, { OffscreenCanvas: known }));

  const palette = new Proxy({}, { get: () => "#000000" }) as Palette;
  /** The strokes of hatchings, without their colours. */
  const tiles = (hatches: readonly Hatch[]): readonly string[] => {
    const made = hatching(palette, 1);
    for (const hatch of hatches) made(hatch);
    return drawn.map((calls) => calls.filter((call) => !call.includes("Style")).join(" "));
  };

  it("kinds of task: a hatching and a letter each", () => {
    expect(new Set(tiles(KINDS)).size).toBe(KINDS.length);
    expect(new Set(Object.values(KIND_LETTERS)).size).toBe(KINDS.length);
  });

  it("sleep, meals, where an EVA may be, and the way: a hatching each, and a bare ground", () => {
    const hatches: readonly Hatch[] = ["night", "meal", "traverse"];
    expect(new Set(tiles(hatches)).size).toBe(hatches.length);
  });

  it("what is below the reserve, the reserve, and too far: strokes of other weights or ways", () => {
    const hatches: readonly Hatch[] = ["breach", "reserve", "ceiling"];
    expect(new Set(tiles(hatches)).size).toBe(hatches.length);
  });

  it("breach and tight: a diamond and a triangle, and a word for every level", () => {
    const marks = (["breach", "tight"] as const).map((state) => {
      const { ctx, calls } = recorder();
      stateMark({ ctx, palette } as unknown as Brush, state, 0, 0);
      return calls.filter((call) => call.startsWith("moveTo") || call.startsWith("lineTo")).join(" ");
    });
    expect(marks[0]).not.toBe(marks[1]);
    expect(new Set(Object.values(LEVEL_WORDS)).size).toBe(3);
  });

  it("crew members on the map: a pattern of dashes and its word each", () => {
    expect(new Set(CREW_STYLES.map((style) => style.dash.join(" "))).size).toBe(CREW_STYLES.length);
    expect(new Set(CREW_STYLES.map((style) => style.word)).size).toBe(CREW_STYLES.length);
  });

  it("the four consumables of a suit: all one colour, so a word each", () => {
    expect(new Set(Object.values(CONSUMABLE_WORDS)).size).toBe(4);
  });

  it("the legend on the day screen shows every hatching and both marks, each with words", () => {
    const signs = SIGNS.flatMap((part) => part.signs);
    const hatches = new Set<Hatch>();
    const { ctx } = recorder();
    const brush = { ctx, palette, hatch: (name: Hatch) => (hatches.add(name), "#000") } as unknown as Brush;
    for (const sign of signs) {
      sign.paint(brush);
      expect(sign.name).not.toBe("");
    }
    expect([...hatches].sort()).toEqual(Object.keys(HATCHINGS).sort());
    expect(signs.map((sign) => sign.name).join(" ")).toMatch(/breach: diamond.*tight: triangle/);
  });

  it("where a task was: an empty, broken outline and the words", () => {
    const { ctx, calls } = recorder();
    const slab = { left: 0, right: 200, topLeft: 0, topRight: 0, bottomLeft: 40, bottomRight: 40 };
    const shown = { ...palette, outing: "#fffdf8", "ink-soft": "#575044" } as Palette;
    paintGhost({ ctx, palette: shown } as unknown as Brush, slab, "Core");
    expect(calls).toContain("setLineDash 4,3");
    expect(calls.some((call) => call.startsWith("fillText was here: Core"))).toBe(true);
    // Filled with the bare ground only: no colour of a kind.
    const styles = calls.filter((call) => call.startsWith("fillStyle"));
    expect(styles.map((call) => call.split(" ").at(-1))).toEqual(["#fffdf8", "#575044"]);
  });

  // Dark slopes and shadow lie close in the dark theme: the list of places says "lit" or "shadow" of each.
  it("dark slopes and shadow: the shadow is the cooler of the two", () => {
    for (const theme of THEMES) {
      const { ramp, shadow } = TONES[theme];
      const warmth = ([red, , blue]: Rgb): number => red - blue;
      expect(warmth(shadow)).toBeLessThan(0);
      expect(warmth(shadow)).toBeLessThan(warmth(ramp[0]));
    }
  });
});

/** Linear light of a colour given from 0 to 255. */
function linear(code: readonly [number, number, number]): Rgb {
  const part = (value: number): number => {
    const share = value / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  return [part(code[0]), part(code[1]), part(code[2])];
}
