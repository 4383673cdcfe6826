import { Fragment, memo, type MouseEvent, useRef } from "react";
import type { KeptCell } from "../viewstate.ts";
import { CellEditor } from "../fields/celleditor.tsx";
import { untilGiven } from "../fields/draft.ts";
import { roomAfter } from "./decimals.ts";
import type { Editing, GridHands } from "./gridhands.ts";
import type { Beside, Cell, Column, Line } from "../fields/table.ts";

interface RowProps {
  readonly line: Line;
  readonly columns: readonly Column[];
  /** The most digits behind a point in each column. */
  readonly decimals: readonly number[];
  /** True when the line's name stands before its cells. */
  readonly named: boolean;
  /** Words behind the first cell; null where the table has none. */
  readonly beside: Beside | null;
  /** The column where the keyboard stands; -1 when it is on another line. */
  readonly column: number;
  /** True when the planner has gone to this line. */
  readonly here: boolean;
  /** True when it is one of the rows that are written together. */
  readonly marked: boolean;
  /** Its number in the whole table, from 1; null where all rows are in the page. */
  readonly rowIndex: number | null;
  readonly editing: Editing | null;
  readonly drafts: ReadonlyMap<string, KeptCell>;
  readonly hands: GridHands;
}

/** One line of a grid. */
export const GridRow = memo(function GridRow(props: RowProps) {
  const { line, columns, decimals, named, beside, column, here, marked, rowIndex, editing, drafts, hands } =
    props;
  return (
    <tr
      data-here={here ? "" : undefined}
      data-marked={marked ? "" : undefined}
      aria-selected={marked ? true : undefined}
      aria-rowindex={rowIndex ?? undefined}
    >
      {named && <th scope="row">{line.name}</th>}
      {line.cells.map((cell, index) => {
        if (!cell) return <td key={index} className="none" />;
        return (
          <Fragment key={index}>
            <GridCell
              cell={cell}
              line={line.id}
              number={index === 0 ? line.number : null}
              column={index}
              align={columns[index]?.align ?? "start"}
              decimals={decimals[index] ?? 0}
              head={!named && index === 0}
              here={column === index}
              editing={editing?.cell === cell.id ? editing : null}
              faulty={drafts.get(cell.id) ?? null}
              hands={hands}
            />
            {index === 0 && beside && (
              <td className="grid-beside" data-state={beside.state}>
                {beside.text}
              </td>
            )}
          </Fragment>
        );
      })}
    </tr>
  );
});

interface CellProps {
  readonly cell: Cell;
  readonly line: string;
  /** Of the thing that the cell names; null where it names none that has one. */
  readonly number: string | null;
  readonly column: number;
  readonly align: Column["align"];
  /** The most digits behind a point in its column. */
  readonly decimals: number;
  /** True when it names its row. */
  readonly head: boolean;
  readonly here: boolean;
  readonly editing: Editing | null;
  readonly faulty: KeptCell | null;
  readonly hands: GridHands;
}

const GridCell = memo(function GridCell(props: CellProps) {
  const { cell, line, number, column, align, decimals, head, here, editing, faulty, hands } = props;
  const was = useRef(false);
  const Part = head ? "th" : "td";
  const where = { line, column };

  const click = (event: MouseEvent): void => {
    if (editing) return;
    const touch = (event.nativeEvent as PointerEvent).pointerType === "touch";
    const marks = event.shiftKey ? "along" : event.ctrlKey || event.metaKey ? "toggle" : "alone";
    if (marks !== "alone") {
      hands.press(cell, where, false, marks);
      return;
    }
    // A first click takes the place, a second one edits; `was` tells where the keyboard stood before this click. A tick is one click.
    const ticks = cell.entry.editor === "tick" && event.detail < 2;
    hands.press(cell, where, ticks || was.current || touch || event.detail > 1, marks);
  };

  return (
    <Part
      scope={head ? "row" : undefined}
      data-cell=""
      data-align={align}
      data-fixed={cell.fixed === null ? undefined : ""}
      data-faulty={faulty ? "" : undefined}
      data-to-give={!faulty && cell.toGive ? "" : undefined}
      data-doubted={!faulty && !cell.toGive && doubtOf(cell) !== null ? "" : undefined}
      data-editing={editing ? "" : undefined}
      tabIndex={here ? 0 : -1}
      aria-readonly={cell.fixed === null ? undefined : true}
      aria-invalid={faulty ? true : undefined}
      onMouseDown={(event) => {
        was.current = here;
        // Marking rows is no selection of text.
        if (event.shiftKey || event.ctrlKey || event.metaKey) event.preventDefault();
      }}
      onFocus={(event) => {
        if (event.target === event.currentTarget) hands.enter(where);
      }}
      onClick={click}
    >
      {editing ? (
        <CellEditor
          cell={cell}
          first={editing.first}
          typed={editing.typed}
          yields
          onDone={hands.done}
          onCancel={() => hands.cancel(cell)}
          onFaulty={(kept, how) => hands.faulty(cell, kept, how)}
        />
      ) : (
        <CellText cell={cell} number={number} decimals={align === "end" ? decimals : 0} faulty={faulty} />
      )}
    </Part>
  );
}, sameCell);

/** Cells are made afresh with every plan; what matters of them are these. */
function sameCell(before: CellProps, after: CellProps): boolean {
  const { cell: a, ...others } = before;
  const { cell: b, ...nextOthers } = after;
  return (
    a.id === b.id &&
    a.shown === b.shown &&
    a.value === b.value &&
    a.path === b.path &&
    a.fixed === b.fixed &&
    a.toGive === b.toGive &&
    doubtOf(a) === doubtOf(b) &&
    a.label === b.label &&
    (Object.keys(others) as (keyof typeof others)[]).every((key) => others[key] === nextOthers[key])
  );
}

function doubtOf({ doubt = null }: Cell): string | null {
  return doubt;
}

function CellText(props: {
  readonly cell: Cell;
  readonly number: string | null;
  readonly decimals: number;
  readonly faulty: KeptCell | null;
}) {
  const { cell, number, decimals, faulty } = props;
  if (faulty || cell.toGive) {
    return (
      <>
        <span className="cell-text">{faulty ? faulty.draft || "(empty)" : "to be given"}</span>
        <span className="cell-fault">{faulty ? faulty.fault : untilGiven(cell)}</span>
      </>
    );
  }
  if (cell.entry.editor === "tick") {
    return (
      <span className="cell-tick" data-on={cell.value === true || undefined}>
        {cell.value === true ? "yes" : "no"}
      </span>
    );
  }
  const doubt = doubtOf(cell);
  return (
    <>
      <span
        className="cell-text"
        data-number={number ?? undefined}
        data-room={roomAfter(cell.shown, decimals) || undefined}
      >
        {cell.shown}
      </span>
      {doubt !== null && <span className="cell-fault">{doubt}</span>}
    </>
  );
}
