import type { Block } from "../../editor/index.ts";

/** A block that stands elsewhere than before, with where it was; null when it was not on the line. */
export interface ChangedBlock {
  readonly block: Block;
  readonly was: Block | null;
}

/** The blocks of `now` that are new, on another lane, or moved by `leastS` or more. */
export function changedBlocks(
  was: readonly Block[],
  now: readonly Block[],
  leastS: number,
): readonly ChangedBlock[] {
  const before = new Map(was.map((block) => [`${block.task} ${block.lane}`, block]));
  const anywhere = new Map(was.map((block) => [block.task, block]));
  return now.flatMap((block) => {
    const same = before.get(`${block.task} ${block.lane}`);
    if (same && same.eva === block.eva && Math.abs(same.startS - block.startS) < leastS) return [];
    return [{ block, was: same ?? anywhere.get(block.task) ?? null }];
  });
}
