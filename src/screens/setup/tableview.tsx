import { useCallback, useEffect, useId, useMemo, useRef, useState } from "react";
import { useAround, useDesk } from "../context.ts";
import type { Removal } from "../../session/index.ts";
import { Menu } from "../shell/menu.tsx";
import { sentence } from "./draft.ts";
import { Grid } from "./grid.tsx";
import type { Place, Word } from "./gridhands.ts";
import { RemovalDialog } from "./removaldialog.tsx";
import type { Cell, NewRow, Table } from "./table.ts";
import { UsualValues } from "./usualvalues.tsx";

/** From so many rows on there is a field to find some. */
const MANY = 15;

const ROWS =
  " Shift with arrows marks rows, to be written together. Cells copied from a spreadsheet are pasted as they stand, or where their heads say.";

/** How the table is begun for which there are sorts of rows. */
const BEGIN = " Add one of a sort; or add a blank one, and paste cells copied from a spreadsheet over it.";

const NONE_MARKED: ReadonlySet<string> = new Set();

/** One setup table: its head, what can be done with rows, the grid, and words on the cell where the keyboard stands. */
export function TableView({ table, from = null }: { readonly table: Table; readonly from?: string | null }) {
  const { desk } = useAround();
  const plan = useDesk((state) => state.plan);
  const lines = useMemo(() => table.lines(plan), [table, plan]);
  const [place, setPlace] = useState<Place | null>(from === null ? null : { line: from, column: 0 });
  const [wanted, setWanted] = useState("");
  const [begin, setBegin] = useState<string | null>(null);
  const [called, setCalled] = useState(0);
  const [word, setWord] = useState<Word | null>(null);
  const refuse = (text: string): void => setWord({ refused: true, text });
  const [marked, setMarked] = useState<ReadonlySet<string>>(NONE_MARKED);
  const [removing, setRemoving] = useState<{ readonly name: string; readonly removal: Removal } | null>(null);
  const titleId = useId();
  const helpId = useId();

  const shown = useMemo(() => {
    const words = wanted.trim().toLowerCase();
    if (words === "") return lines;
    return lines.filter((line) => line.cells.some((cell) => cell?.shown.toLowerCase().includes(words)));
  }, [lines, wanted]);
  const onBegun = useCallback(() => setBegin(null), []);
  const index = place ? lines.findIndex((one) => one.id === place.line) : -1;
  const line = lines[index] ?? null;
  const cell = line && place ? (line.cells[place.column] ?? null) : null;
  const { rows } = table;

  const put = (made: NewRow, step: (name: string) => string): void => {
    if (typeof made === "string") return refuse(made);
    const name = table.lines({ ...plan, ...made.change(plan) }).find((one) => one.id === made.id)?.name ?? "";
    const put = desk.edit(step(name), made.change);
    if (!put.ok) return refuse(sentence(put.error[0]?.message ?? "The plan cannot take it."));
    setWord(null);
    setWanted("");
    setPlace({ line: made.id, column: 0 });
    setBegin(`${table.id}/${made.id}/0`);
  };
  const remove = (): void => {
    if (!rows || !line) return;
    const removal = rows.remove(plan, line.id);
    if (removal.hindrances.length + removal.consequences.length > 0) {
      return setRemoving({ name: line.name, removal });
    }
    finishRemoval(line.name, removal);
  };
  const finishRemoval = (name: string, removal: Removal): void => {
    const next = lines[index + 1] ?? lines[index - 1] ?? null;
    const done = desk.edit(`Remove ${name}`, removal.change);
    setRemoving(null);
    if (!done.ok) return refuse(sentence(done.error[0]?.message ?? "The plan cannot take it."));
    setWord(null);
    setPlace(next ? { line: next.id, column: 0 } : null);
    setCalled((times) => times + 1);
  };

  const insteadOfRemoval = (name: string, instead: NonNullable<Removal["instead"]>): void => {
    const done = desk.edit(`${name}: ${instead.words}`, instead.change);
    setRemoving(null);
    if (!done.ok) return refuse(sentence(done.error[0]?.message ?? "The plan cannot take it."));
    setWord(null);
    setCalled((times) => times + 1);
  };

  // When undo takes the row away in which the keyboard stood, the next one takes it, or what adds the first.
  const stood = useRef(-1);
  const adds = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (index >= 0) stood.current = index;
    if (!place || index >= 0 || document.activeElement !== document.body) return;
    const next = lines[Math.min(stood.current, lines.length - 1)];
    setPlace(next ? { line: next.id, column: place.column } : null);
    if (next) setCalled((times) => times + 1);
    else adds.current?.focus();
  }, [index, lines, place]);

  return (
    <section className="setup-table" data-table={table.id} aria-labelledby={titleId}>
      <header>
        <h2 id={titleId}>{table.title}</h2>
        {rows && <span className="note">{lines.length}</span>}
        <p className="note">{table.intro}</p>
        <div className="setup-work">
          {rows && lines.length > MANY && (
            <input
              type="search"
              aria-label={`Find in ${table.title.toLowerCase()}`}
              placeholder="Find"
              value={wanted}
              onChange={(event) => setWanted(event.target.value)}
            />
          )}
          {rows && (
            <>
              <button
                type="button"
                disabled={!line}
                aria-label={line ? `Remove ${line.name}` : undefined}
                onClick={remove}
              >
                Remove
              </button>
              <button
                type="button"
                disabled={!line}
                aria-label={line ? `Duplicate ${line.name}` : undefined}
                onClick={() => line && put(rows.copy(plan, line.id), (name) => `Add ${name}`)}
              >
                Duplicate
              </button>
              {rows.sorts.length > 0 && (
                <Menu name="Add of a sort" label={`Add a ${rows.one} of a sort`}>
                  {rows.sorts.map((sort) => (
                    <button
                      key={sort.name}
                      type="button"
                      className="quiet"
                      title={sort.says}
                      onClick={() => put(sort.add(plan), (name) => `Add ${name}`)}
                    >
                      {sort.name}
                    </button>
                  ))}
                </Menu>
              )}
              <button
                ref={adds}
                type="button"
                className="primary"
                onClick={() => put(rows.add(plan), (name) => `Add ${name}`)}
              >
                Add {rows.one}
              </button>
            </>
          )}
        </div>
      </header>
      {word !== null && (
        <p
          className={word.refused ? "state breach setup-word" : "setup-word note"}
          role={word.refused ? "alert" : "status"}
        >
          {word.text}
        </p>
      )}
      {marked.size > 1 && (
        <p className="setup-marked" role="status">
          <b>{marked.size} rows marked.</b> What is written in one goes into all of them.{" "}
          <button type="button" className="quiet" onClick={() => setMarked(NONE_MARKED)}>
            Unmark
          </button>
        </p>
      )}
      {shown.length > 0 ? (
        <Grid
          table={table}
          lines={shown}
          place={place}
          onPlace={(next) =>
            setPlace((now) => (now?.line === next.line && now.column === next.column ? now : next))
          }
          begin={begin}
          onBegun={onBegun}
          called={called}
          marked={marked}
          onMarked={setMarked}
          onWord={setWord}
          labelId={titleId}
          helpId={helpId}
        />
      ) : (
        <p className="setup-empty note">
          {wanted === "" ? `There is no ${rows?.one ?? "line"} yet.` : "Nothing matches."}
          {wanted === "" && rows && rows.sorts.length > 0 && BEGIN}
        </p>
      )}
      <CellWords cell={cell} rows={rows !== null} helpId={helpId} />
      {cell?.usual && cell.fixed === null && (
        <UsualValues
          cell={cell}
          usual={cell.usual}
          onTake={(value) => {
            const done = desk.edit(cell.step, cell.put(value));
            if (!done.ok) refuse(sentence(done.error[0]?.message ?? "The plan cannot take it."));
            else setWord(null);
          }}
        />
      )}
      {removing && rows && (
        <RemovalDialog
          name={removing.name}
          removal={removing.removal}
          onRemove={() => finishRemoval(removing.name, removing.removal)}
          onInstead={() =>
            removing.removal.instead && insteadOfRemoval(removing.name, removing.removal.instead)
          }
          onKeep={() => setRemoving(null)}
        />
      )}
    </section>
  );
}

/** What the cell in hand holds, its range and how to write it; without one, how the table is used. */
function CellWords(props: { readonly cell: Cell | null; readonly rows: boolean; readonly helpId: string }) {
  const { cell, rows, helpId } = props;
  return (
    <p className="setup-words" id={helpId}>
      {cell ? (
        <>
          <b>{cell.label}</b>
          <span>
            {cell.fixed ?? [sentence(cell.hint), cell.entry.form, rangeOf(cell)].filter(isSaid).join(" ")}
          </span>
        </>
      ) : (
        <span>
          Arrows move, Enter or typing edits, Tab goes on to the next field, Escape restores.{rows && ROWS}
        </span>
      )}
    </p>
  );
}

function isSaid(words: string | undefined): boolean {
  return words !== undefined && words !== "" && words !== ".";
}

/** `30 to 200 kg.`; nothing for texts, times and choices, whose form says enough. */
function rangeOf({ guide, entry, unit }: Cell): string {
  if (guide.low === null || guide.high === null || entry.form !== undefined) return "";
  const tail = unit === "" ? "" : ` ${unit}`;
  const scale = unit === "%" ? 100 : 1;
  return `${group(guide.low * scale)} to ${group(guide.high * scale)}${tail}.`;
}

function group(value: number): string {
  return value.toLocaleString("en", { maximumFractionDigits: 3 }).replaceAll(",", "\u202f").replace("-", "−");
}
