/** The theme's colours for painting on a canvas, read once from the tokens that style everything else. */

const NAMES = [
  "paper",
  "raised",
  "sunk",
  "ink",
  "ink-soft",
  "line",
  "line-strong",
  "accent",
  "accent-wash",
  "on-accent",
  "breach",
  "breach-wash",
  "on-breach",
  "tight",
  "tight-wash",
  "on-tight",
  "sampling",
  "sampling-hatch",
  "deployment",
  "deployment-hatch",
  "survey",
  "survey-hatch",
  "upkeep",
  "upkeep-hatch",
  "traverse",
  "outing",
  "night",
  "meal",
  "relay",
  "sun",
  "fit",
  "fit-wash",
  "ceiling",
  "stock",
  "reserve",
  "crew-one",
  "crew-two",
  "crew-three",
  "crew-four",
] as const;

export type ColourName = (typeof NAMES)[number];
export type Palette = Readonly<Record<ColourName, string>>;

/** The colours that hold on `element` now. */
export function paletteOf(element: Element): Palette {
  const style = getComputedStyle(element);
  const entries = NAMES.map((name) => [name, style.getPropertyValue(`--${name}`).trim()] as const);
  return Object.fromEntries(entries) as Record<ColourName, string>;
}
