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
 * together where a page can hold it.
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
  if (used <= lastMm + ROUNDING) return pages;
  // The end of the last page moves on: as much as leaves it whole groups.
  const last = pages.pop() ?? [];
  let from = last.length;
  while (from > 0 && (from === last.length || last[from - 1]?.keep === true)) from -= 1;
  return from > 0 ? [...pages, last.slice(0, from), last.slice(from)] : [...pages, last, []];
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
