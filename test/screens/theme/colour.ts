import { readFileSync } from "node:fs";

/** Measures of colour for tests: contrast, what eyes with one kind of cone less see, and how far apart two colours look. */

export type Rgb = readonly [red: number, green: number, blue: number];
export type Lab = readonly [lightness: number, a: number, b: number];

export const THEMES = ["light", "dark", "dim"] as const;
export type ThemeName = (typeof THEMES)[number];

/** The colours of a theme as the tokens have them; throws on a name that is none of them. */
export function themeColours(theme: ThemeName): {
  readonly names: readonly string[];
  readonly of: (name: string) => Rgb;
} {
  const css = readFileSync("src/screens/theme/tokens.css", "utf8");
  const start = css.indexOf(`[data-theme="${theme}"] {`);
  const block = css.slice(css.indexOf("{", start) + 1, css.indexOf("}", start));
  const found = new Map(
    [...block.matchAll(/--([a-z-]+):\s*(#[0-9a-f]{6});/g)].map((match) => [match[1]!, match[2]!]),
  );
  return {
    names: [...found.keys()],
    of(name) {
      const hex = found.get(name);
      if (hex === undefined) throw new Error(`no colour --${name}`);
      return rgb(hex);
    },
  };
}

/** Linear light of `#rrggbb`, each from 0 to 1 (IEC 61966-2-1). */
export function rgb(hex: string): Rgb {
  const linear = (at: number): number => {
    const value = parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [linear(1), linear(3), linear(5)];
}

/** `share` of `top` over `ground`, mixed as a browser does: in encoded sRGB. */
export function over(top: Rgb, ground: Rgb, share: number): Rgb {
  const mixed = top.map((value, i) => {
    const code = share * encoded(value) + (1 - share) * encoded(ground[i]!);
    return code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4;
  });
  return mixed as unknown as Rgb;
}

function encoded(value: number): number {
  return value <= 0.0031308 ? value * 12.92 : 1.055 * value ** (1 / 2.4) - 0.055;
}

/** Contrast of two colours, 1 to 21 (WCAG 2.2). */
export function contrast(a: Rgb, b: Rgb): number {
  const luminance = ([red, green, blue]: Rgb): number => 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  const [high, low] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

/** How colours are seen: by all cones, or with one kind missing altogether. */
export type Sight = "full" | "protanopia" | "deuteranopia" | "tritanopia";

/**
 * Severity 1.0 of the model by Machado, Oliveira & Fernandes, IEEE Trans. Vis. Comput. Graph. 15:1291 (2009), by rows,
 * for linear light.
 */
const MACHADO: Readonly<Record<Sight, readonly Rgb[]>> = {
  full: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

export const SIGHTS = Object.keys(MACHADO) as readonly Sight[];

/** What `colour` looks like to these eyes. */
function seen(colour: Rgb, sight: Sight): Rgb {
  const rows = MACHADO[sight].map((row) => {
    const sum = row[0] * colour[0] + row[1] * colour[1] + row[2] * colour[2];
    return Math.min(1, Math.max(0, sum));
  });
  return rows as unknown as Rgb;
}

/** CIELAB of linear sRGB, D65 (CIE 15:2004). */
function lab([red, green, blue]: Rgb): Lab {
  const f = (t: number): number => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const x = f((0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / 0.95047);
  const y = f(0.2126729 * red + 0.7151522 * green + 0.072175 * blue);
  const z = f((0.0193339 * red + 0.119192 * green + 0.9503041 * blue) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** How far apart two colours look to these eyes, CIEDE2000. */
export function apart(a: Rgb, b: Rgb, sight: Sight): number {
  return ciede2000(lab(seen(a, sight)), lab(seen(b, sight)));
}

const RADIANS = Math.PI / 180;

/** Colour difference CIEDE2000 with all weights 1, as written by Sharma, Wu & Dalal, Color Res. Appl. 30:21 (2005). */
export function ciede2000([l1, a1, b1]: Lab, [l2, a2, b2]: Lab): number {
  const meanC = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2;
  const g = 0.5 * (1 - Math.sqrt(meanC ** 7 / (meanC ** 7 + 25 ** 7)));
  const [x1, x2] = [(1 + g) * a1, (1 + g) * a2];
  const [c1, c2] = [Math.hypot(x1, b1), Math.hypot(x2, b2)];
  const hue = (b: number, a: number): number =>
    a === 0 && b === 0 ? 0 : (Math.atan2(b, a) / RADIANS + 360) % 360;
  const [h1, h2] = [hue(b1, x1), hue(b2, x2)];
  const grey = c1 * c2 === 0;
  const step = grey ? 0 : ((h2 - h1 + 540) % 360) - 180;
  const dL = l2 - l1;
  const dC = c2 - c1;
  const dH = 2 * Math.sqrt(c1 * c2) * Math.sin((step / 2) * RADIANS);
  const meanL = (l1 + l2) / 2;
  const mean = (c1 + c2) / 2;
  const meanH = grey
    ? h1 + h2
    : Math.abs(h1 - h2) <= 180
      ? (h1 + h2) / 2
      : (h1 + h2 + (h1 + h2 < 360 ? 360 : -360)) / 2;
  const cos = (degrees: number): number => Math.cos(degrees * RADIANS);
  const t =
    1 -
    0.17 * cos(meanH - 30) +
    0.24 * cos(2 * meanH) +
    0.32 * cos(3 * meanH + 6) -
    0.2 * cos(4 * meanH - 63);
  const sL = 1 + (0.015 * (meanL - 50) ** 2) / Math.sqrt(20 + (meanL - 50) ** 2);
  const sC = 1 + 0.045 * mean;
  const sH = 1 + 0.015 * mean * t;
  const turn = 30 * Math.exp(-(((meanH - 275) / 25) ** 2));
  const rT = -2 * Math.sqrt(mean ** 7 / (mean ** 7 + 25 ** 7)) * Math.sin(2 * turn * RADIANS);
  return Math.sqrt((dL / sL) ** 2 + (dC / sC) ** 2 + (dH / sH) ** 2 + rT * (dC / sC) * (dH / sH));
}
