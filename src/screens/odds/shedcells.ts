import type { ShedCell } from "../../answers/index.ts";
import { isEqual } from "../../kernel/index.ts";
import { ruleInWords } from "../../rules/index.ts";

/** Cells of a row, equal neighbours taken together: what to do from the first one's lateness on. */
export function heldCells(
  cells: readonly ShedCell[],
): readonly { readonly cell: ShedCell; readonly span: number }[] {
  const held: { cell: ShedCell; span: number }[] = [];
  for (const cell of cells) {
    const last = held.at(-1);
    if (last && sameOrder(last.cell, cell)) last.span += 1;
    else held.push({ cell, span: 1 });
  }
  return held;
}

/** What a cell tells the crew to do. */
export function shedWords(cell: ShedCell, nameOf: (task: string) => string): string {
  const rules = cell.breaks.map(ruleInWords);
  const vain = cell.vain.length > 0 ? `; in vain: ${cell.vain.map(nameOf).join(", ")}` : "";
  const broken = `${vain}${rules.length > 0 ? `; breaks ${rules.join(", ")}` : ""}`;
  switch (cell.kind) {
    case "keep":
      return `drop nothing${broken}`;
    case "drop":
      return `drop ${cell.drop.map(nameOf).join(", ")}${broken}`;
    case "end":
      return `end the EVA${broken}`;
    case "over":
      return `end the EVA at once${broken}`;
  }
}

function sameOrder(a: ShedCell, b: ShedCell): boolean {
  const order = ({ kind, least, drop, vain, breaks }: ShedCell): unknown => [kind, least, drop, vain, breaks];
  return isEqual(order(a), order(b));
}
