import { createContext, useContext } from "react";
import type { Caution, Step } from "../../plan/index.ts";
import { counted } from "../../words/index.ts";
import type { Entry } from "./entry.ts";

/** What a line of the crew's paper takes and has, mm. */
interface LineUse {
  readonly takesMm: number;
  readonly roomMm: number;
}

/** Measures lines as paper sets them; wired where paper is known. */
export type MeasureLines = (
  kind: NonNullable<Entry["onPaper"]>,
  list: readonly (Caution | Step)[],
) => readonly LineUse[];

export const PaperLines = createContext<MeasureLines | null>(null);

/** Letters of the face on average, mm: how many a line is too long by is said in them. */
const LETTER_MM = 2.3;

/** Under the lines that are being written: which do not stand on one line of the crew's page, and by how much. */
export function PaperLinesFit(props: {
  readonly kind: NonNullable<Entry["onPaper"]>;
  readonly value: unknown;
}) {
  const measure = useContext(PaperLines);
  if (!measure || !Array.isArray(props.value)) return null;
  const uses = measure(props.kind, props.value as readonly (Caution | Step)[]);
  if (uses.length === 0) return null;
  const over = uses.flatMap(({ takesMm, roomMm }, k) =>
    takesMm > roomMm ? [{ line: k + 1, letters: Math.ceil((takesMm - roomMm) / LETTER_MM) }] : [],
  );
  const last = uses.at(-1)!;
  const left = Math.floor((last.roomMm - last.takesMm) / LETTER_MM);
  return (
    <p className="paper-lines note" data-over={over.length > 0 ? "" : undefined} role="status">
      {over.length === 0
        ? `Each fits one line at 14 pt${left >= 0 ? `; the last has room for about ${counted(left, "letter")}` : ""}.`
        : `Not on one line at 14 pt: ${over
            .slice(0, 4)
            .map(({ line, letters }) => `line ${line} by about ${counted(letters, "letter")}`)
            .join(", ")}${over.length > 4 ? ` and ${over.length - 4} more` : ""}.`}
    </p>
  );
}
