import type { Palette } from "../../theme/palette.ts";

const SIZE = 6;

interface Drawn {
  readonly ink: (palette: Palette) => string;
  draw(ctx: OffscreenCanvasRenderingContext2D): void;
}

const slant = (width: number, down: boolean) => ({
  draw(ctx: OffscreenCanvasRenderingContext2D): void {
    ctx.lineWidth = width;
    ctx.beginPath();
    for (const shift of [-SIZE, 0, SIZE]) {
      ctx.moveTo(shift - 1, down ? -1 : SIZE + 1);
      ctx.lineTo(shift + SIZE + 1, down ? SIZE + 1 : -1);
    }
    ctx.stroke();
  },
});

/** Hatchings as repeating tiles: dots, uprights, slants, levels for the kinds; others for what lies between. */
export const HATCHINGS = {
  sampling: {
    ink: (palette) => palette["sampling-hatch"],
    draw(ctx) {
      for (const [x, y] of [
        [1.5, 1.5],
        [4.5, 4.5],
      ] as const) {
        ctx.beginPath();
        ctx.arc(x, y, 1.05, 0, 2 * Math.PI);
        ctx.fill();
      }
    },
  },
  deployment: {
    ink: (palette) => palette["deployment-hatch"],
    draw(ctx) {
      ctx.fillRect(1, 0, 1.4, SIZE);
      ctx.fillRect(4, 0, 1.4, SIZE);
    },
  },
  survey: { ink: (palette) => palette["survey-hatch"], ...slant(1.3, false) },
  upkeep: {
    ink: (palette) => palette["upkeep-hatch"],
    draw(ctx) {
      ctx.fillRect(0, 1, SIZE, 1.4);
      ctx.fillRect(0, 4, SIZE, 1.4);
    },
  },
  traverse: { ink: (palette) => palette.traverse, ...slant(0.9, true) },
  reserve: { ink: (palette) => palette.reserve, ...slant(1.2, false) },
  night: { ink: (palette) => palette["line-strong"], ...slant(0.5, true) },
  meal: {
    ink: (palette) => palette["line-strong"],
    draw(ctx) {
      ctx.fillRect(2.5, 2.5, 1, 1);
    },
  },
  ceiling: { ink: (palette) => palette.ceiling, ...slant(0.9, false) },
  breach: { ink: (palette) => palette.breach, ...slant(1.6, false) },
  slide: { ink: (palette) => palette.fit, ...slant(0.7, true) },
  heights: { ink: (palette) => palette.line, draw: (ctx) => ctx.fillRect(0, 0, 1, 1) },
} as const satisfies Readonly<Record<string, Drawn>>;

export type Hatch = keyof typeof HATCHINGS;

/** Patterns for one palette and pixel density, made when they are first asked for. */
export function hatching(palette: Palette, density: number): (hatch: Hatch) => CanvasPattern | string {
  const made = new Map<Hatch, CanvasPattern | string>();
  return (hatch) => {
    let pattern = made.get(hatch);
    if (!pattern) {
      const { ink, draw }: Drawn = HATCHINGS[hatch];
      const px = Math.round(SIZE * density);
      const tile = new OffscreenCanvas(px, px);
      const ctx = tile.getContext("2d");
      if (!ctx) return ink(palette);
      ctx.scale(px / SIZE, px / SIZE);
      ctx.fillStyle = ink(palette);
      ctx.strokeStyle = ink(palette);
      draw(ctx);
      const repeated = ctx.createPattern(tile, "repeat");
      repeated?.setTransform(new DOMMatrix().scale(SIZE / px));
      pattern = repeated ?? ink(palette);
      made.set(hatch, pattern);
    }
    return pattern;
  };
}
