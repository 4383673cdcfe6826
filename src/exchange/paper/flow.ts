import type { Mark } from "./page.ts";

/** A piece of content of known height that is never split; draws itself with its top at `y`, mm. */
export interface Block {
  readonly height: number;
  /** Not left alone at the foot of a page: moves on together with the next block. */
  readonly keep?: boolean;
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

/** Height of a block and of those it is kept with. */
function heightTogether(blocks: readonly Block[], from: number): number {
  let height = 0;
  for (let i = from; i < blocks.length; i += 1) {
    height += blocks[i]!.height;
    if (blocks[i]!.keep !== true) break;
  }
  return height;
}
