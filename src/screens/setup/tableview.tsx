import { useId, useMemo, useRef, useState } from "react";
import type { Plan } from "../../plan/index.ts";
import { useApp, useSession } from "../context.ts";
import { sentence } from "../fields/draft.ts";
import type { Beside, Cell, Table } from "../fields/table.ts";
import { CellWords } from "./cellwords.tsx";
import { FormBeside, useFormSide } from "./formside.tsx";
import { Grid } from "./grid.tsx";
import type { Word } from "./gridhands.ts";
import { RemovalDialog } from "./removaldialog.tsx";
import { type RowSearch, useRowSearch } from "./rowsearch.ts";
import { useColumnChoice } from "./tablecolumns.ts";
import { TableHead } from "./tablehead.tsx";
import { TableLook } from "./tablelook.tsx";
import { type TablePlace, useLedPlace, useTablePlace, useUndonePlace } from "./tableplace.ts";
import { type RowsView, type TableRows, useTableRows } from "./tablerows.ts";
import { UsualValues } from "./usualvalues.tsx";
import { useWholeTableKey } from "./wholetable.ts";

/** How the table is begun for which there are sorts of rows. */
const BEGIN =
  " Add one from a template; or add a blank one, and paste cells copied from a spreadsheet over it. A list in a file comes in with Import a list, in the menu under the plan’s name.";

const NONE_MARKED: ReadonlySet<string> = new Set();

/** One setup table: its head, what can be done with rows, the grid, and words on the cell where the keyboard stands. */
export function TableView(props: { readonly table: Table; readonly from?: string | null }) {
  const { table: whole, from = null } = props;
  const { session } = useApp();
  const plan = useSession((state) => state.plan);
  const columns = useColumnChoice(whole);
  const { table } = columns;
  const lines = useMemo(() => table.lines(plan), [table, plan]);
  const search = useRowSearch(whole, plan, lines);
  const at = useTablePlace(lines, from);
  const [word, setWord] = useState<Word | null>(null);
  const [marked, setMarked] = useState<ReadonlySet<string>>(NONE_MARKED);
  const [titleId, helpId] = [useId(), useId()];
  const beside = useBeside(table, plan);
  useLedPlace(whole, plan, columns, at, search.showAll);
  // Of the first row where none is chosen: so nothing moves under the pointer that chooses one.
  const form = useFormSide(whole, plan, (at.line ?? search.shown[0])?.id ?? null);
  const work = useTableRows(session, table, plan, lines, rowsView(table, search, at, setWord));
  const adds = useRef<HTMLButtonElement>(null);
  useUndonePlace(lines, at, adds);
  const { shown } = search;
  const section = useRef<HTMLElement>(null);
  const markAll = (): void => setMarked(new Set(shown.map(({ id }) => id)));
  useWholeTableKey(section, table.rows && markAll);
  return (
    <section ref={section} className="setup-table" data-table={table.id} aria-labelledby={titleId}>
      <TableHead {...{ table, plan, lines, search, at, form, work, adds, titleId }} />
      <TableLook {...{ whole, columns, search, at }} />
      {word !== null && <WordLine word={word} />}
      {marked.size > 1 && <MarkedLine count={marked.size} onUnmark={() => setMarked(NONE_MARKED)} />}
      <div className="setup-beside">
        {shown.length > 0 ? (
          <Grid
            {...{ table, whole, beside, marked, helpId }}
            lines={shown}
            place={at.place}
            onPlace={at.take}
            called={at.called}
            begin={at.begin}
            onBegun={at.begun}
            onMarked={setMarked}
            onWord={setWord}
            labelId={titleId}
          />
        ) : (
          <NoRows rows={table.rows} isSearched={search.wanted !== ""} />
        )}
        {form.line && (
          <FormBeside
            {...{ whole, search, at }}
            columns={table.columns}
            line={form.line}
            onClose={() => form.show(false)}
          />
        )}
      </div>
      {shown.length > 0 && <CellWords cell={at.cell} rows={table.rows !== null} helpId={helpId} />}
      <UsualOf cell={at.cell} onWord={setWord} />
      <RemovalQuestion work={work} />
    </section>
  );
}

/** Where the keyboard goes, and what is shown, once rows were added or removed. */
function rowsView(
  table: Table,
  search: RowSearch,
  at: TablePlace,
  word: (word: Word | null) => void,
): RowsView {
  return {
    word,
    added(id) {
      search.showAll();
      at.beginAt(id, `${table.id}/${id}/0`);
    },
    removed(next) {
      at.take(next ? { line: next.id, column: 0 } : null);
      at.call();
    },
    returned: at.call,
  };
}

/** What the day makes of each line, for a table that says so. */
function useBeside(table: Table, plan: Plan): ReadonlyMap<string, Beside> | null {
  const verdict = useSession((state) => (table.beside ? state.verdict : null));
  return useMemo(
    () => (table.beside && verdict ? table.beside.of(plan, verdict) : null),
    [table, plan, verdict],
  );
}

function WordLine({ word }: { readonly word: Word }) {
  return (
    <p
      className={word.refused ? "state breach setup-word" : "setup-word note"}
      role={word.refused ? "alert" : "status"}
    >
      {word.text}
    </p>
  );
}

function MarkedLine(props: { readonly count: number; readonly onUnmark: () => void }) {
  return (
    <p className="setup-marked" role="status">
      <b>{props.count} rows marked.</b> What is written in one goes into all of them.{" "}
      <button type="button" className="quiet" onClick={props.onUnmark}>
        Unmark
      </button>
    </p>
  );
}

function NoRows(props: { readonly rows: Table["rows"]; readonly isSearched: boolean }) {
  const { rows, isSearched } = props;
  return (
    <p className="setup-empty note">
      {isSearched ? "Nothing matches." : `There is no ${rows?.one ?? "line"} yet.`}
      {!isSearched && rows && rows.sorts.length > 0 && BEGIN}
    </p>
  );
}

/** The usual values of the cell in hand, where the literature has some. */
function UsualOf(props: { readonly cell: Cell | null; readonly onWord: (word: Word | null) => void }) {
  const { cell, onWord } = props;
  const { session } = useApp();
  if (!cell?.usual || cell.fixed !== null) return null;
  return (
    <UsualValues
      cell={cell}
      usual={cell.usual}
      onTake={(value) => {
        const put = session.edit(cell.step, cell.put(value));
        const why = put.ok ? null : sentence(put.error[0]?.message ?? "The plan cannot take it.");
        onWord(why === null ? null : { refused: true, text: why });
      }}
    />
  );
}

/** What is asked before a row goes on which others hang. */
function RemovalQuestion({ work }: { readonly work: TableRows }) {
  if (!work.pending) return null;
  return (
    <RemovalDialog
      name={work.pending.line.name}
      removal={work.pending.removal}
      onRemove={work.confirm}
      onInstead={work.doInstead}
      onKeep={work.keep}
    />
  );
}
