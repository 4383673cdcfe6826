import type { Block } from "./flow.ts";
import { type Mark, type Tag, tagged } from "./page.ts";

/** Lists and tables of a page, for readers that do not see it: which marks are an item, a row, a cell. */

/** The block as part of what the tag says; on several pages it is one piece on each. */
export function within<B extends Block>(tag: Tag, block: B): B {
  return { ...block, draw: (y: number) => tagged(block.draw(y), tag) };
}

/** The marks of a row's cells, one list for each column, empty ones too; `role` is what each cell is. */
export function rowOf(table: Tag, role: "TH" | "TD", cells: readonly (readonly Mark[])[]): Mark[] {
  const tags = cells.map((): Tag => ({ role }));
  const row: Tag = { role: "TR", cells: tags };
  return cells.flatMap((marks, k) => tagged(tagged(tagged(marks, tags[k]), row), table));
}

/** The blocks of one item of a list: what `label` tagged them with is its label, all else its body. */
export function itemOf(list: Tag, blocks: readonly Block[]): Block[] {
  const [item, body]: readonly Tag[] = [{ role: "LI" }, { role: "LBody" }];
  const inBody = (mark: Mark): Mark[] => (mark.tags?.[0]?.role === "Lbl" ? [mark] : tagged([mark], body));
  return blocks.map((block) => ({
    ...block,
    draw: (y: number) => tagged(tagged(block.draw(y).flatMap(inBody), item), list),
  }));
}

/** The marks as the label of their item. */
export function itemLabel(marks: readonly Mark[]): Mark[] {
  return tagged(marks, { role: "Lbl" });
}
