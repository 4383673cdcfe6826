import type { Page } from "@playwright/test";

/**
 * What is written on a page and what lies on it, read off what the browser was told to paint: every text of every canvas with the box
 * of its ink, every text of the page itself, and the lines and grounds between them. Nothing of the app's own reckoning is asked.
 */

/** Pixels of the page. */
export interface PaintedBox {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export interface PaintedText extends PaintedBox {
  readonly text: string;
  /** The part of it that something painted later covers. */
  readonly covered: number;
  /** How many lines run through its middle: on top of it, or below it where no rim keeps them off. */
  readonly struck: number;
}

/** Minds from now on all that the page paints. Call before the page is opened. */
export async function mindPainting(page: Page): Promise<void> {
  // What runs this marks functions that have a name by a helper that the page does not have.
  await page.addInitScript({ content: "globalThis.__name = (one) => one;" });
  await page.addInitScript(minding);
}

type Point = [number, number];

/** One thing that a canvas was told to paint. */
interface Painted {
  kind: "text" | "line" | "ground";
  text?: string;
  rim?: boolean;
  points: Point[];
  wide: number;
  clip: number[] | null;
}

/** In the page: keeps for every canvas what it was told to paint since it was emptied last. */
function minding(): void {
  const made = CanvasRenderingContext2D.prototype;
  const store = window as unknown as { painting: WeakMap<HTMLCanvasElement, Painted[]> };
  interface Own {
    path: Point[][];
    clip: number[] | null;
    stack: (number[] | null)[];
    rim: string;
  }
  store.painting = new WeakMap();
  const owns = new WeakMap<CanvasRenderingContext2D, Own>();
  const own = (ctx: CanvasRenderingContext2D): Own => {
    let one = owns.get(ctx);
    if (!one) owns.set(ctx, (one = { path: [], clip: null, stack: [], rim: "" }));
    return one;
  };
  const list = (ctx: CanvasRenderingContext2D): Painted[] => {
    let one = store.painting.get(ctx.canvas);
    if (!one) store.painting.set(ctx.canvas, (one = []));
    return one;
  };
  const at = (ctx: CanvasRenderingContext2D, x: number, y: number): Point => {
    const { a, b, c, d, e, f } = ctx.getTransform();
    return [a * x + c * y + e, b * x + d * y + f];
  };
  const corners = (ctx: CanvasRenderingContext2D, x: number, y: number, w: number, h: number): Point[] => [
    at(ctx, x, y),
    at(ctx, x + w, y),
    at(ctx, x + w, y + h),
    at(ctx, x, y + h),
  ];
  const boxed = (points: Point[]): number[] => [
    Math.min(...points.map(([x]) => x)),
    Math.min(...points.map(([, y]) => y)),
    Math.max(...points.map(([x]) => x)),
    Math.max(...points.map(([, y]) => y)),
  ];
  const plain = (ctx: CanvasRenderingContext2D, style: unknown): boolean =>
    typeof style === "string" && ctx.globalAlpha > 0.9;
  const instead = <Name extends keyof CanvasRenderingContext2D>(
    name: Name,
    before: (ctx: CanvasRenderingContext2D, given: never[]) => void,
  ): void => {
    const paint = made[name] as (...given: never[]) => unknown;
    (made as unknown as Record<string, unknown>)[name] = function (
      this: CanvasRenderingContext2D,
      ...given: never[]
    ) {
      before(this, given);
      return paint.apply(this, given);
    };
  };
  instead("beginPath", (ctx) => void (own(ctx).path = []));
  instead("moveTo", (ctx, [x, y]) => void own(ctx).path.push([at(ctx, x!, y!)]));
  const go = (ctx: CanvasRenderingContext2D, x: number, y: number): void => {
    const { path } = own(ctx);
    if (path.length === 0) path.push([]);
    path.at(-1)!.push(at(ctx, x, y));
  };
  instead("lineTo", (ctx, [x, y]) => go(ctx, x!, y!));
  instead("quadraticCurveTo", (ctx, [cx, cy, x, y]) => {
    // Half way it is half way between the middle of its ends and what pulls it; near enough for a rope.
    go(ctx, cx!, (cy! + y!) / 2);
    go(ctx, x!, y!);
  });
  instead("rect", (ctx, [x, y, w, h]) => void own(ctx).path.push(corners(ctx, x!, y!, w!, h!)));
  instead("arc", (ctx, [x, y, r]) => void own(ctx).path.push(corners(ctx, x! - r!, y! - r!, 2 * r!, 2 * r!)));
  instead("save", (ctx) => void own(ctx).stack.push(own(ctx).clip));
  instead("restore", (ctx) => void (own(ctx).clip = own(ctx).stack.pop() ?? null));
  instead("clip", (ctx) => {
    const one = own(ctx);
    const box = boxed(one.path.flat());
    one.clip = one.clip
      ? [
          Math.max(one.clip[0]!, box[0]!),
          Math.max(one.clip[1]!, box[1]!),
          Math.min(one.clip[2]!, box[2]!),
          Math.min(one.clip[3]!, box[3]!),
        ]
      : box;
  });
  instead("clearRect", (ctx, [x, y, w, h]) => {
    // Columns are emptied from top to bottom: of what reaches out of them the rest stays, of a text the part with its middle.
    const [from, , to] = boxed(corners(ctx, x!, y!, w!, h!)) as [number, number, number, number];
    const left = list(ctx).flatMap((one): Painted[] => {
      const [px0, , px1] = boxed(one.points);
      const [x0, x1] = [
        Math.max(px0!, one.clip?.[0] ?? -Infinity),
        Math.min(px1!, one.clip?.[2] ?? Infinity),
      ];
      const clip = one.clip ?? [-Infinity, -Infinity, Infinity, Infinity];
      const before = { ...one, clip: [clip[0]!, clip[1]!, Math.min(clip[2]!, from), clip[3]!] };
      const after = { ...one, clip: [Math.max(clip[0]!, to), clip[1]!, clip[2]!, clip[3]!] };
      const middle = (x0 + x1) / 2;
      if (one.kind === "text" && middle > from && middle < to) return [];
      if (one.kind === "text") return [middle < from ? before : after];
      return [...(x0 < from ? [before] : []), ...(x1 > to ? [after] : [])];
    });
    store.painting.set(ctx.canvas, left);
  });
  instead("fillRect", (ctx, [x, y, w, h]) => {
    if (!plain(ctx, ctx.fillStyle)) return;
    const points = corners(ctx, x!, y!, w!, h!);
    const [x0, y0, x1, y1] = boxed(points);
    const [thin, long] = [Math.min(x1! - x0!, y1! - y0!), Math.max(x1! - x0!, y1! - y0!)];
    const kind = thin <= 3 && long >= 10 ? "line" : "ground";
    const { clip } = own(ctx);
    if (kind === "line") {
      const flat = y1! - y0! < x1! - x0!;
      const [mx, my] = [(x0! + x1!) / 2, (y0! + y1!) / 2];
      const ends: Point[] = flat
        ? [
            [x0!, my],
            [x1!, my],
          ]
        : [
            [mx, y0!],
            [mx, y1!],
          ];
      list(ctx).push({ kind, points: ends, wide: thin, clip });
    } else list(ctx).push({ kind, points, wide: 0, clip });
  });
  instead("fill", (ctx) => {
    if (!plain(ctx, ctx.fillStyle)) return;
    const { path, clip } = own(ctx);
    for (const points of path)
      if (points.length > 2) list(ctx).push({ kind: "ground", points, wide: 0, clip });
  });
  instead("stroke", (ctx) => {
    if (!plain(ctx, ctx.strokeStyle)) return;
    const { path, clip } = own(ctx);
    for (const points of path)
      if (points.length > 1) list(ctx).push({ kind: "line", points, wide: ctx.lineWidth, clip });
  });
  instead("strokeText", (ctx, [text]) => void (own(ctx).rim = String(text)));
  instead("fillText", (ctx, [text, x, y]) => {
    if (String(text).trim() === "") return;
    const size = ctx.measureText(String(text));
    const left = x! - size.actualBoundingBoxLeft;
    const top = y! - size.actualBoundingBoxAscent;
    const wide = size.actualBoundingBoxLeft + size.actualBoundingBoxRight;
    const tall = size.actualBoundingBoxAscent + size.actualBoundingBoxDescent;
    const one = own(ctx);
    list(ctx).push({
      kind: "text",
      text: String(text),
      rim: one.rim === String(text),
      points: corners(ctx, left, top, wide, tall),
      wide: 0,
      clip: one.clip,
    });
    one.rim = "";
  });
}

/** All that is written in sight inside `within`. */
export function paintedTexts(page: Page, within = "body"): Promise<readonly PaintedText[]> {
  return page.evaluate(readTexts, within);
}

/** In the page: what stands there now. */
function readTexts(within: string): PaintedText[] {
  interface Item extends Painted {
    x0: number;
    y0: number;
    x1: number;
    y1: number;
  }
  const root = document.querySelector(within)!;
  /** What of the window an element can be seen in. */
  const sightOf = (element: Element): DOMRect | null => {
    let [x0, y0, x1, y1] = [0, 0, innerWidth, innerHeight];
    for (let one: Element | null = element; one; one = one.parentElement) {
      const style = getComputedStyle(one);
      if (style.visibility === "hidden" || style.display === "none" || Number(style.opacity) < 0.1)
        return null;
      const cuts =
        style.overflow !== "visible" ||
        style.clipPath !== "none" ||
        /paint|strict|content/.test(style.contain);
      if (one !== element && !cuts) continue;
      if (one === element && !(one instanceof HTMLCanvasElement) && style.overflow === "visible") continue;
      const box = one.getBoundingClientRect();
      [x0, y0, x1, y1] = [
        Math.max(x0, box.left),
        Math.max(y0, box.top),
        Math.min(x1, box.right),
        Math.min(y1, box.bottom),
      ];
      if (style.position === "fixed") break;
    }
    return x1 - x0 < 2 || y1 - y0 < 2 ? null : new DOMRect(x0, y0, x1 - x0, y1 - y0);
  };
  const { painting } = window as unknown as { painting: WeakMap<HTMLCanvasElement, Item[]> };
  const items: Item[] = [];
  for (const canvas of root.querySelectorAll("canvas")) {
    const sight = sightOf(canvas);
    const box = canvas.getBoundingClientRect();
    if (!sight || box.width === 0) continue;
    const share = box.width / canvas.width;
    for (const one of painting.get(canvas) ?? []) {
      const points = one.points.map(([x, y]): Point => [box.left + x * share, box.top + y * share]);
      const clip = one.clip?.map((value, i) => (i % 2 === 0 ? box.left : box.top) + value * share);
      const limit = [
        Math.max(sight.left, clip?.[0] ?? -Infinity),
        Math.max(sight.top, clip?.[1] ?? -Infinity),
        Math.min(sight.right, clip?.[2] ?? Infinity),
        Math.min(sight.bottom, clip?.[3] ?? Infinity),
      ];
      const [x0, y0, x1, y1] = [
        Math.max(limit[0]!, Math.min(...points.map(([x]) => x))),
        Math.max(limit[1]!, Math.min(...points.map(([, y]) => y))),
        Math.min(limit[2]!, Math.max(...points.map(([x]) => x))),
        Math.min(limit[3]!, Math.max(...points.map(([, y]) => y))),
      ];
      if (x1 < x0 || y1 < y0) continue;
      items.push({ ...one, points, clip: limit, x0, y0, x1, y1, wide: one.wide * share });
    }
  }
  const square = (x0: number, y0: number, x1: number, y1: number): Point[] => [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  const bare = { clip: null, wide: 0, rim: true };
  // What lies over the page stands on a ground of its own, or on none.
  for (const element of root.querySelectorAll<HTMLElement>("*")) {
    const style = getComputedStyle(element);
    if (!/^(absolute|fixed|sticky)$/.test(style.position) || !/^rgb\(/.test(style.backgroundColor)) continue;
    const sight = sightOf(element);
    const own = element.getBoundingClientRect();
    if (!sight || own.width < 4 || own.height < 4) continue;
    const [x0, y0, x1, y1] = [own.left, own.top, own.right, own.bottom];
    items.push({ kind: "ground", ...bare, points: square(x0, y0, x1, y1), x0, y0, x1, y1 });
  }
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const parent = node.parentElement;
    if (!parent || !node.textContent?.trim() || parent.closest("select, option, script, style, title"))
      continue;
    const sight = sightOf(parent);
    if (!sight) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) {
      // A line of text is taller than its ink.
      const trim = box.height * 0.2;
      const [x0, x1] = [Math.max(box.left, sight.left), Math.min(box.right, sight.right)];
      const [y0, y1] = [Math.max(box.top + trim, sight.top), Math.min(box.bottom - trim, sight.bottom)];
      if (x1 - x0 < 1 || y1 - y0 < 1) continue;
      // What lies under something else with a ground of its own is not in sight.
      let over = document.elementFromPoint((x0 + x1) / 2, (y0 + y1) / 2);
      while (over && !over.contains(parent) && !/^rgb\(/.test(getComputedStyle(over).backgroundColor))
        over = over.parentElement;
      if (over && !over.contains(parent) && !parent.contains(over)) continue;
      items.push({
        kind: "text",
        text: node.textContent.trim().replace(/\s+/g, " "),
        ...bare,
        points: square(x0, y0, x1, y1),
        x0,
        y0,
        x1,
        y1,
      });
    }
  }
  const inside = ([px, py]: Point, points: Point[]): boolean => {
    let odd = false;
    for (let i = 0, j = points.length - 1; i < points.length; j = i, i += 1) {
      const [ax, ay] = points[i]!;
      const [bx, by] = points[j]!;
      if (ay > py !== by > py && px < ((bx - ax) * (py - ay)) / (by - ay) + ax) odd = !odd;
    }
    return odd;
  };
  const meets = (a: Item, b: Item, by = 0): boolean =>
    a.x0 < b.x1 - by && b.x0 < a.x1 - by && a.y0 < b.y1 - by && b.y0 < a.y1 - by;
  const samplesOf = ({ x0, y0, x1, y1 }: Item): Point[] =>
    [0.1, 0.3, 0.5, 0.7, 0.9].flatMap((u) =>
      [0.15, 0.5, 0.85].map((v): Point => [x0 + u * (x1 - x0), y0 + v * (y1 - y0)]),
    );
  const covers = (ground: Item, [px, py]: Point): boolean =>
    px >= ground.x0 &&
    px <= ground.x1 &&
    py >= ground.y0 &&
    py <= ground.y1 &&
    inside([px, py], ground.points);
  /** Points of a line inside the middle of a text, some pixels apart. */
  const crossing = (line: Item, text: Item): Point[] => {
    const [mx, my] = [Math.min(3, (text.x1 - text.x0) * 0.2), (text.y1 - text.y0) * 0.2];
    const found: Point[] = [];
    for (let i = 1; i < line.points.length; i += 1) {
      const [ax, ay] = line.points[i - 1]!;
      const [bx, by] = line.points[i]!;
      const steps = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / 2));
      for (let k = 0; k <= steps; k += 1) {
        const [x, y] = [ax + (k / steps) * (bx - ax), ay + (k / steps) * (by - ay)];
        const seen =
          !line.clip ||
          (x >= line.clip[0]! && x <= line.clip[2]! && y >= line.clip[1]! && y <= line.clip[3]!);
        if (seen && x > text.x0 + mx && x < text.x1 - mx && y > text.y0 + my && y < text.y1 - my)
          found.push([x, y]);
      }
    }
    return found;
  };
  return items.flatMap((text, n) => {
    if (text.kind !== "text") return [];
    const samples = samplesOf(text);
    const later = items.slice(n + 1).filter((one) => one.kind === "ground" && meets(one, text));
    const covered =
      samples.filter((point) => later.some((one) => covers(one, point))).length / samples.length;
    let struck = 0;
    for (const [m, line] of items.entries()) {
      if (line.kind !== "line" || line.wide < 0.9 || line.x1 < text.x0 || line.x0 > text.x1) continue;
      if (m < n && text.rim) continue;
      const points = crossing(line, text);
      if (points.length < 2) continue;
      const between = items
        .slice(m + 1, m < n ? n : undefined)
        .filter((one) => one.kind === "ground" && meets(one, text, -2));
      if (points.some((point) => !between.some((one) => covers(one, point)))) struck += 1;
    }
    const { x0, y0, x1, y1 } = text;
    return [{ text: text.text!, x0, y0, x1, y1, covered, struck }];
  });
}

/** Ink that comes nearer than this lies on the other's, pixels. */
const OVER_PX = 1;

/** Texts that lie on each other, by pairs; what is wholly covered is not there any more. */
export function textsOnTexts(
  texts: readonly PaintedText[],
): readonly (readonly [PaintedText, PaintedText])[] {
  const seen = texts.filter(({ covered }) => covered < 0.95);
  return seen.flatMap((a, n) =>
    seen
      .slice(n + 1)
      .filter(
        (b) =>
          a.x0 < b.x1 - OVER_PX && b.x0 < a.x1 - OVER_PX && a.y0 < b.y1 - OVER_PX && b.y0 < a.y1 - OVER_PX,
      )
      // One that is painted in two parts is one.
      .filter((b) => a.text !== b.text || Math.hypot(a.x0 - b.x0, a.y0 - b.y0) > 2)
      .map((b) => [a, b] as const),
  );
}
