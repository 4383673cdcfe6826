import type { Block } from "../flow.ts";
import type { Mark } from "../page.ts";

/** A block that stands under another one again where it begins a page: a row under the head of its table. */
export interface SheetBlock extends Block {
  readonly again?: Block;
}

/** Where blocks may stand on a page, mm. */
export interface Room {
  readonly top: number;
  readonly bottom: number;
}

/** Blocks one under the other over as many pages as they need: none is split or lost. `after`: on all pages but the first. */
export function paginate(blocks: readonly SheetBlock[], first: Room, after: Room): Mark[][] {
  const pages: Mark[][] = [];
  let page: Mark[] = [];
  let room = first;
  let y = room.top;
  const put = (block: Block): void => {
    page.push(...block.draw(y));
    y += block.height;
  };
  blocks.forEach((block, i) => {
    const isFirst = y === room.top;
    const needed = heightTogether(blocks, i, room.bottom - room.top - (block.again?.height ?? 0));
    if (!isFirst && y + needed > room.bottom) {
      pages.push(page);
      page = [];
      room = after;
      y = room.top;
      if (block.again) put(block.again);
    }
    put(block);
  });
  pages.push(page);
  return pages;
}

/** Height of a block and of those it is kept with; its own alone where no page holds them all. */
function heightTogether(blocks: readonly SheetBlock[], from: number, most: number): number {
  let height = 0;
  for (let i = from; i < blocks.length; i += 1) {
    const block = blocks[i];
    if (!block) break;
    height += block.height;
    if (block.keep !== true) break;
  }
  return height <= most ? height : (blocks[from]?.height ?? 0);
}
