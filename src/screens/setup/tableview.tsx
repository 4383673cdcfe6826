import {
  type ReactNode,
  type RefObject,
  useCallback,
  useEffect,
  useId,
  useMemo,
  useRef,
  useState,
} from "react";
import type { Plan } from "../../plan/index.ts";
import { digits } from "../../words/index.ts";
import { useAround, useDesk, useLook } from "../context.ts";
import { Menu } from "../parts/menu.tsx";
import { sentence, untilGiven } from "../fields/draft.ts";
import { Grid } from "./grid.tsx";
import type { Place, Word } from "./gridhands.ts";
import { RowForm } from "./rowform.tsx";
import { RemovalDialog } from "./removaldialog.tsx";
import { type Cell, type Lack, type Line, narrowed, type NewRow, type Table } from "../fields/table.ts";
import { type TableRows, useTableRows } from "./tablerows.ts";
import { UsualValues } from "./usualvalues.tsx";

/** From so many rows on there is a field to find some. */
const MANY = 15;

/** With more columns than this a table has its rows as a form beside it. */
const WIDE = 7;

const ROWS =
  " Shift with arrows marks rows, to be written together. Cells copied from a spreadsheet are pasted as they stand, or where their heads say.";

/** How the table is begun for which there are sorts of rows. */
const BEGIN =
  " Add one from a template; or add a blank one, and paste cells copied from a spreadsheet over it.";

const NONE_MARKED: ReadonlySet<string> = new Set();

/** One setup table: its head, what can be done with rows, the grid, and words on the cell where the keyboard stands. */
export function TableView(props: { readonly table: Table; readonly from?: string | null }) {
  const { table: whole, from = null } = props;
  const { desk, look, memory } = useAround();
  const [setName, setSetName] = useState(() => memory.get(`setup-columns-${whole.id}`) ?? "");
  const table = useMemo(
    () => narrowed(whole, whole.sets.find(({ name }) => name === setName) ?? null),
    [whole, setName],
  );
  const [formShown, setFormShown] = useState(() => memory.get("setup-form") === "shown");
  const [lacking, setLacking] = useState<string | null>(null);
  const plan = useDesk((state) => state.plan);
  const lines = useMemo(() => table.lines(plan), [table, plan]);
  const [place, setPlace] = useState<Place | null>(from === null ? null : { line: from, column: 0 });
  const [wanted, setWanted] = useState("");
  const [begin, setBegin] = useState<string | null>(null);
  const [called, setCalled] = useState(0);
  const [word, setWord] = useState<Word | null>(null);
  const [marked, setMarked] = useState<ReadonlySet<string>>(NONE_MARKED);
  const titleId = useId();
  const helpId = useId();

  const verdict = useDesk((state) => (table.beside ? state.verdict : null));
  const beside = useMemo(
    () => (table.beside && verdict ? table.beside.of(plan, verdict) : null),
    [table, plan, verdict],
  );
  const lacks = useMemo(() => whole.lacks(plan), [whole, plan]);
  // What nobody lacks any more is shown as all are.
  const lack = lacks.find(({ words }) => words === lacking) ?? null;
  const shown = useMemo(() => {
    const words = wanted.trim().toLowerCase();
    const some = lack ? lines.filter(({ id }) => lack.rows.has(id)) : lines;
    if (words === "") return some;
    return some.filter((line) => line.cells.some((cell) => cell?.shown.toLowerCase().includes(words)));
  }, [lines, wanted, lack]);
  const onBegun = useCallback(() => setBegin(null), []);

  const led = useLook((state) => (state.setupCell?.table === whole.id ? state.setupCell : null));
  useEffect(() => {
    if (!led) return;
    look.setState({ setupCell: null });
    // In a table of single fields a line is found by its field.
    const toLine =
      whole.line(plan, led.row) ??
      whole.lines(plan).find(({ cells }) => cells.some((one) => one?.path === `${whole.id}.${led.field}`));
    const cells = toLine?.cells ?? [];
    const to =
      typeof led.field === "number"
        ? led.field
        : cells.findIndex((one) => one?.path.endsWith(`.${led.field}`));
    const column = table.columns.indexOf(whole.columns[to] ?? table.columns[0]!);
    setWanted("");
    setLacking(null);
    // A column that is not among those shown brings all of them.
    if (column < 0) setSetName("");
    setPlace({ line: toLine?.id ?? led.row, column: column < 0 ? to : column });
    setCalled((times) => times + 1);
  }, [led, look, whole, table, plan]);
  const index = place ? lines.findIndex((one) => one.id === place.line) : -1;
  const line = lines[index] ?? null;
  const cell = line && place ? (line.cells[place.column] ?? null) : null;
  const { rows } = table;
  // Of the first row where none is chosen: so nothing moves under the pointer that chooses one.
  const formOf = (line ?? shown[0])?.id ?? null;
  const wholeLine = useMemo(
    () => (formShown && formOf !== null && whole.columns.length > WIDE ? whole.line(plan, formOf) : null),
    [formShown, formOf, whole, plan],
  );

  const work = useTableRows(desk, table, plan, lines, {
    word: setWord,
    added(id) {
      setWanted("");
      setLacking(null);
      setPlace({ line: id, column: 0 });
      setBegin(`${table.id}/${id}/0`);
    },
    removed(next) {
      setPlace(next ? { line: next.id, column: 0 } : null);
      setCalled((times) => times + 1);
    },
    returned: () => setCalled((times) => times + 1),
  });

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
        {rows && (
          <RowsWork rows={rows} plan={plan} empty={lines.length === 0} line={line} work={work} adds={adds}>
            {whole.columns.length > WIDE && lines.length > 0 && (
              <button
                type="button"
                aria-pressed={formShown}
                onClick={() => {
                  setFormShown(!formShown);
                  // A form is of some row: the first where none is chosen.
                  if (!formShown && !line && shown[0]) setPlace({ line: shown[0].id, column: 0 });
                  memory.set("setup-form", formShown ? "" : "shown");
                }}
              >
                Form
              </button>
            )}
            {lines.length > MANY && (
              <input
                type="search"
                aria-label={`Find in ${table.title.toLowerCase()}`}
                placeholder="Find"
                value={wanted}
                onChange={(event) => setWanted(event.target.value)}
              />
            )}
          </RowsWork>
        )}
      </header>
      {(whole.sets.length > 0 || lacks.length > 0) && (
        <div className="setup-look">
          {whole.sets.length > 0 && (
            <ColumnSets
              table={whole}
              chosen={setName}
              onChoose={(name) => {
                setSetName(name);
                memory.set(`setup-columns-${whole.id}`, name);
                setPlace((now) => now && { ...now, column: 0 });
              }}
            />
          )}
          <Lacks lacks={lacks} chosen={lack} onChoose={setLacking} />
        </div>
      )}
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
      <div className="setup-beside">
        {shown.length > 0 ? (
          <Grid
            table={table}
            whole={whole}
            lines={shown}
            beside={beside}
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
        {formShown && wholeLine && (
          <RowForm
            table={whole}
            line={wholeLine}
            first={table.columns.map(({ group }) => group)}
            at={shown.findIndex(({ id }) => id === wholeLine.id)}
            of={shown.length}
            lacks={lacks.filter(({ rows: having }) => having.has(wholeLine.id)).map(({ words }) => words)}
            onStep={(by) => {
              const next = shown[shown.findIndex(({ id }) => id === wholeLine.id) + by];
              if (next) setPlace({ line: next.id, column: place?.column ?? 0 });
            }}
            onClose={() => {
              setFormShown(false);
              memory.set("setup-form", "");
            }}
          />
        )}
      </div>
      {shown.length > 0 && <CellWords cell={cell} rows={rows !== null} helpId={helpId} />}
      {cell?.usual && cell.fixed === null && (
        <UsualValues
          cell={cell}
          usual={cell.usual}
          onTake={(value) => {
            const put = desk.edit(cell.step, cell.put(value));
            const why = put.ok ? null : sentence(put.error[0]?.message ?? "The plan cannot take it.");
            setWord(why === null ? null : { refused: true, text: why });
          }}
        />
      )}
      {work.asked && (
        <RemovalDialog
          name={work.asked.line.name}
          removal={work.asked.removal}
          onRemove={work.confirm}
          onInstead={work.doInstead}
          onKeep={work.keep}
        />
      )}
    </section>
  );
}

/** Which columns are shown. */
function ColumnSets(props: {
  readonly table: Table;
  readonly chosen: string;
  readonly onChoose: (name: string) => void;
}) {
  const { table, chosen, onChoose } = props;
  return (
    <div className="setup-sets joined" role="group" aria-label={`Columns of ${table.title.toLowerCase()}`}>
      {["", ...table.sets.map(({ name }) => name)].map((name) => (
        <button key={name} type="button" aria-pressed={chosen === name} onClick={() => onChoose(name)}>
          {name === "" ? "All columns" : name}
        </button>
      ))}
    </div>
  );
}

/** What rows lack, each with its count; a press shows those that lack it, another all again. */
function Lacks(props: {
  readonly lacks: readonly Lack[];
  readonly chosen: Lack | null;
  readonly onChoose: (words: string | null) => void;
}) {
  const { lacks, chosen, onChoose } = props;
  if (lacks.length === 0) return null;
  return (
    <div className="setup-lacks" role="group" aria-label="What is missing">
      {lacks.map((lack) => (
        <button
          key={lack.words}
          type="button"
          className="quiet"
          aria-pressed={lack === chosen}
          onClick={() => onChoose(lack === chosen ? null : lack.words)}
        >
          <b>{lack.rows.size}</b> {lack.words}
        </button>
      ))}
    </div>
  );
}

/** What can be done with rows: find, remove, copy, and add. */
function RowsWork(props: {
  readonly rows: NonNullable<Table["rows"]>;
  readonly plan: Plan;
  /** True where there is no row yet that anything could be done with. */
  readonly empty: boolean;
  readonly line: Line | null;
  readonly work: TableRows;
  readonly adds: RefObject<HTMLButtonElement | null>;
  readonly children: ReactNode;
}) {
  const { rows, plan, empty, line, work, adds, children } = props;
  const add = (made: NewRow): void => work.add(made, (name) => `Add ${name}`);
  return (
    <div className="setup-work">
      {children}
      {!empty && (
        <>
          <button
            type="button"
            disabled={!line}
            aria-label={line ? `Remove ${line.name}` : undefined}
            onClick={() => line && work.remove(line)}
          >
            Remove
          </button>
          <button
            type="button"
            disabled={!line}
            aria-label={line ? `Duplicate ${line.name}` : undefined}
            onClick={() => line && add(rows.copy(plan, line.id))}
          >
            Duplicate
          </button>
        </>
      )}
      {rows.sorts.length > 0 && (
        <Menu name="Add from a template" label={`Add a ${rows.one} from a template`}>
          {rows.sorts.map((sort) => (
            <button
              key={sort.name}
              type="button"
              className="quiet"
              title={sort.says}
              onClick={() => add(sort.add(plan))}
            >
              {sort.name}
            </button>
          ))}
        </Menu>
      )}
      <button ref={adds} type="button" className="primary" onClick={() => add(rows.add(plan))}>
        Add {rows.one}
      </button>
    </div>
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
            {cell.toGive && `Nobody has given it: the plan goes on, ${untilGiven(cell)}. `}
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
  return `${digits(guide.low * scale)} to ${digits(guide.high * scale)}${tail}.`;
}
