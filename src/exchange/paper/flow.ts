import type { Mark } from "./page.ts";

/** A piece of content of known height that is never split; draws itself with its top at `y`, mm. */
export interface Block {
  readonly height: number;
  /** Not left alone at the foot of a page: moves on together with the next block. */
  readonly keep?: boolean;
  /** The number of the step that it is. */
  readonly step?: number;
  draw(y: number): readonly Mark[];
}

/** Where content may stand on a page, mm. */
export interface Room {
  readonly top: number;
  readonly bottom: number;
}

/**
 * Blocks set one under the other over as many pages as they need; nothing is cut off. Pages after the first begin
 * with `again`. `foot` stands at the bottom of the last page. A block taller than the room gets a page of its own.
 */
export function flow(
  blocks: readonly Block[],
  room: Room,
  again: Block | null,
  foot: Block | null,
): Mark[][] {
  const pages: Mark[][] = [[]];
  let y = room.top;
  let filled = false;
  const turn = (): void => {
    pages.push([]);
    y = room.top;
    filled = false;
    if (again) {
      pages.at(-1)!.push(...again.draw(y));
      y += again.height;
    }
  };
  const whole = room.bottom - room.top - (again?.height ?? 0);
  blocks.forEach((block, i) => {
    const together = heightTogether(blocks, i);
    // What no page holds together is split after all, and not set a block a page.
    const height = together <= whole ? together : block.height;
    if (filled && y + height > room.bottom) turn();
    pages.at(-1)!.push(...block.draw(y));
    y += block.height;
    filled = true;
  });
  if (foot) {
    if (filled && y + foot.height > room.bottom) turn();
    pages.at(-1)!.push(...foot.draw(room.bottom - foot.height));
  }
  return pages;
}

/**
 * Blocks by page, none split: pages hold `roomMm`, the last one, which has more at its foot, only `lastMm`. What is kept together moves on
 * together where a page can hold it. What needs more than one page is shared out between the last two, so that nobody turns the page for a line.
 */
export function paginate(blocks: readonly Block[], roomMm: number, lastMm: number): Block[][] {
  const pages: Block[][] = [[]];
  let used = 0;
  blocks.forEach((block, i) => {
    const together = heightTogether(blocks, i);
    const height = together <= roomMm ? together : block.height;
    if (used > 0 && used + height > roomMm + ROUNDING) {
      pages.push([]);
      used = 0;
    }
    pages.at(-1)?.push(block);
    used += block.height;
  });
  const fits = used <= lastMm + ROUNDING;
  if (fits && pages.length === 1) return pages;
  const last = pages.pop() ?? [];
  const pair = [...(pages.pop() ?? []), ...last];
  const from = evenBreak(pair, roomMm, lastMm);
  if (from !== null) return [...pages, pair.slice(0, from), pair.slice(from)];
  const [before, end] = [pair.slice(0, pair.length - last.length), last];
  if (fits) return [...pages, before, end];
  // The end of the last page moves on: as much as leaves it whole groups.
  let at = end.length;
  while (at > 0 && (at === end.length || end[at - 1]?.keep === true)) at -= 1;
  const front = before.length > 0 ? [before] : [];
  const moved = end.slice(at);
  // What no last page has room for stays where it is, and the last page is left to its foot.
  const isApart = at === 0 || heightOf(moved) > lastMm + ROUNDING;
  return [...pages, ...front, ...(isApart ? [end, []] : [end.slice(0, at), moved])];
}

/**
 * Where two pages are broken so that the fuller one is the least full, not before the first step: what guards the whole task is read with it. Null where
 * no such break leaves groups whole and both inside their room.
 */
function evenBreak(blocks: readonly Block[], roomMm: number, lastMm: number): number | null {
  const whole = heightOf(blocks);
  let best: { readonly from: number; readonly fullMm: number } | null = null;
  const firstStep = blocks.findIndex(({ step }) => step !== undefined);
  for (let from = Math.max(0, firstStep) + 1; from < blocks.length; from += 1) {
    if (blocks[from - 1]?.keep === true) continue;
    const first = heightOf(blocks.slice(0, from));
    if (first > roomMm + ROUNDING || whole - first > lastMm + ROUNDING) continue;
    const fullMm = Math.max(first, whole - first);
    if (best === null || fullMm < best.fullMm) best = { from, fullMm };
  }
  return best?.from ?? null;
}

function heightOf(blocks: readonly Block[]): number {
  return blocks.reduce((sum, { height }) => sum + height, 0);
}

/** Sums of heights are let off this much, mm. */
const ROUNDING = 1e-6;

/** Height of a block and of those it is kept with. */
function heightTogether(blocks: readonly Block[], from: number): number {
  let height = 0;
  for (let i = from; i < blocks.length; i += 1) {
    height += blocks[i]!.height;
    if (blocks[i]!.keep !== true) break;
  }
  return height;
}
