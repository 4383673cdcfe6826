import { Fragment, memo, type ReactNode, useMemo, useRef } from "react";
import type { ExplainRequest, MarginTrack, Verdict } from "../../answers/index.ts";
import type { Course, TimeScale } from "../../editor/index.ts";
import { shownPlan, shownSchedule, shownVerdict } from "../../session/index.ts";
import type { Plan } from "../../plan/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import { useDay } from "../day/context.ts";
import { Assumed } from "../parts/assumed.tsx";
import { From } from "../parts/from/from.tsx";
import { metres } from "../../words/index.ts";
import type { Brush } from "../parts/canvas/brush.ts";
import { KeptCanvas } from "../parts/canvas/canvas.tsx";
import {
  around,
  type Changed,
  type Columns,
  columnsOf,
  courseChange,
  within,
} from "../parts/canvas/changed.ts";
import { usePanning } from "../day/line/panning.ts";
import type { LineSizes } from "../day/line/sizes.ts";
import { useCalm } from "../settled.ts";
import { useBefore } from "./before.ts";
import { CursorValues } from "./cursorvalues.tsx";
import { paintMargins } from "./paintmargins.ts";
import { ALL, type MarginPart, type MarginRow, marginRows, type RowPlace } from "./rows.ts";
import { spareOf } from "./spare.ts";

/** What is left of everything, under the same time axis as the lanes: its figures at the left, its shape beside them. */
export function Margins(props: {
  readonly scale: TimeScale;
  readonly which: "all" | "least";
  readonly sizes: LineSizes;
}) {
  const { scale, which, sizes } = props;
  const { view } = useApp();
  const { windows } = useDay();
  const plan = useSession(shownPlan);
  const schedule = useSession(shownSchedule);
  const verdict = useSession(shownVerdict);
  const was = useBefore();
  const stage = useRef<HTMLDivElement>(null);
  const panning = usePanning(stage, scale, windows, false);

  const rows = useMemo(() => marginRows(plan, schedule, verdict, which), [plan, schedule, verdict, which]);
  const wasPlan = was?.plan ?? null;
  const wasVerdict = was?.verdict ?? null;
  const before = useMemo(
    () => (wasPlan && wasVerdict ? marginRows(wasPlan, wasPlan.schedule, wasVerdict, which) : null),
    [wasPlan, wasVerdict, which],
  );
  const { places, heightPx } = useMemo(() => placed(rows, sizes), [rows, sizes]);
  // The same while something is in hand: else every strip would be drawn anew.
  const settled = useSession((state) => state.verdict);
  const topShare = useMemo(() => topShareOf(settled), [settled]);
  const groups = useMemo(() => groupsOf(places), [places]);

  return (
    <section className="margins" aria-label="Margins" tabIndex={0}>
      <Figures places={places} heightPx={heightPx} before={before} />
      <div
        ref={stage}
        className="margin-stage"
        style={{ width: scale.widthPx, height: heightPx }}
        onPointerDown={(event) => panning.press(event.nativeEvent)}
        onPointerMove={(event) => {
          const box = event.currentTarget.getBoundingClientRect();
          view.setState({ cursorS: scale.at(event.clientX - box.left) });
        }}
        onPointerLeave={() => view.setState({ cursorS: null })}
      >
        {groups.map((group) => (
          <div key={group.name} className="margin-group" style={{ top: group.top }}>
            <GroupStill group={group} before={before} scale={scale} topShare={topShare} />
          </div>
        ))}
        <CursorValues places={places} before={before} scale={scale} />
      </div>
    </section>
  );
}

/** What the rows are and their worst: figures are read, so they follow calmly what the pictures follow at once. */
function Figures(props: FigureRows) {
  const { places, heightPx, before } = props;
  const shown = useMemo(() => ({ places, before }), [places, before]);
  return <CalmFigures {...useCalm(shown)} heightPx={heightPx} />;
}

interface ListedRow extends RowPlace {
  /** Height of the line above it that says whose it and those below are; 0 where none stands there. */
  readonly headPx: number;
}

interface FigureRows {
  readonly places: readonly ListedRow[];
  readonly heightPx: number;
  readonly before: readonly MarginRow[] | null;
}

const CalmFigures = memo(function CalmFigures({ places, heightPx, before }: FigureRows) {
  const was = useMemo(() => new Map(before?.map((row) => [row.key, row])), [before]);
  return (
    <ul className="margin-rows" style={{ height: heightPx }}>
      {places.map(({ row, top, heightPx, headPx }) => (
        <Fragment key={row.key}>
          {headPx > 0 && (
            <li className="margin-head" style={{ top: top - headPx, height: headPx }}>
              <b title={row.group}>{row.group}</b>
            </li>
          )}
          <li style={{ top, height: heightPx }}>
            <RowFigures row={row} before={was.get(row.key) ?? null} low={heightPx < TWO_LINES_PX} />
          </li>
        </Fragment>
      ))}
    </ul>
  );
});

interface Group {
  readonly name: string;
  readonly top: number;
  readonly heightPx: number;
  /** Rows with their tops inside the group. */
  readonly places: readonly RowPlace[];
}

/** The rows of each suit, and those of all together. */
function groupsOf(places: readonly RowPlace[]): readonly Group[] {
  const names = [...new Set(places.map(({ row }) => row.group))];
  return names.map((name) => {
    const own = places.filter(({ row }) => row.group === name);
    const top = own[0]?.top ?? 0;
    const last = own.at(-1);
    return {
      name,
      top,
      heightPx: last ? last.top + last.heightPx + 1 - top : 0,
      places: own.map((place) => ({ ...place, top: place.top - top })),
    };
  });
}

interface Drawn {
  readonly group: Group;
  readonly before: readonly MarginRow[] | null;
  readonly scale: TimeScale;
  /** The share of a stock at the top of a strip. */
  readonly topShare: number;
}

/** The picture of one group. A move changes the suits of one EVA: of the others nothing is painted anew. */
function GroupStill(props: Drawn) {
  const { group, before, scale, topShare } = props;
  const drawn = useMemo((): Drawn => ({ group, before, scale, topShare }), [group, before, scale, topShare]);
  return (
    <KeptCanvas
      widthPx={scale.widthPx}
      heightPx={group.heightPx}
      drawn={drawn}
      changed={columnsChanged}
      paint={paintGroup}
    />
  );
}

/** What is written at the end of a course reaches this far beyond it, pixels. */
const BEYOND_PX = 120;

function columnsChanged(was: Drawn, now: Drawn): Columns | "all" | null {
  if (was.scale !== now.scale || was.before !== now.before || was.topShare !== now.topShare) return "all";
  const stretch = groupChange(was.group, now.group);
  if (stretch === "anywhere") return "all";
  return stretch && columnsOf(stretch, now.scale, BEYOND_PX);
}

function paintGroup(brush: Brush, drawn: Drawn, columns: Columns | null): void {
  const { group, before, scale, topShare } = drawn;
  paintMargins(brush, group.places, before, within(scale, columns, BEYOND_PX), topShare);
}

/** Where two pictures of a group look different: under all of a course that changed, since its greatest value may set its height. */
function groupChange(a: Group, b: Group): Changed {
  if (a.places.length !== b.places.length) return "anywhere";
  const changes: Course["points"][number][] = [];
  for (const [i, { row, top, heightPx }] of a.places.entries()) {
    const other = b.places[i]!;
    if (
      top !== other.top ||
      heightPx !== other.heightPx ||
      row.key !== other.row.key ||
      measureOf(row) !== measureOf(other.row)
    )
      return "anywhere";
    const was = coursesOf(row);
    const now = coursesOf(other.row);
    if (was.length !== now.length) return "anywhere";
    for (const [k, course] of was.entries()) {
      const next = now[k]!;
      if (floorOf(course) !== floorOf(next) || courseChange(course.points, next.points) !== null)
        changes.push(...course.points, ...next.points);
    }
  }
  return around(changes.map(({ atS }) => ({ startS: atS, endS: atS })));
}

/** The reserve under a course; 0 under one that has none. */
function floorOf(course: Course): number {
  return "reserve" in course ? (course as MarginTrack).reserve : 0;
}

/** What a row's courses are held against. */
function measureOf(row: MarginRow): number | null {
  return row.kind === "spare" ? row.topS : "limit" in row ? row.limit : null;
}

function coursesOf(row: MarginRow): readonly Course[] {
  return row.kind === "least" ? row.outings.flat() : row.tracks;
}

/** From this height on a row has a second line, pixels. */
const TWO_LINES_PX = 27;

/** Who and what, and the figure that counts: of the EVAs in view strong, of the stay below. */
function RowFigures(props: {
  readonly row: MarginRow;
  readonly before: MarginRow | null;
  /** No second line. */
  readonly low: boolean;
}) {
  const { row, before, low } = props;
  if (row.kind === "least") return <SuitFigures row={row} before={before} low={low} />;
  if (row.kind === "apart") return <ApartFigures row={row} before={before} low={low} />;
  // What it is held against falls away where it has no room; what it is never does.
  const [what = "", ...against] = row.label.split(", ");
  return (
    <>
      <span className="margin-label" title={`${row.group}, ${row.label}`}>
        <span>{what}</span>
        {against.length > 0 && <span className="margin-of">{against.join(", ")}</span>}
      </span>
      <WorstFigure row={row} before={before} figure={row.figure} />
    </>
  );
}

function WorstFigure(props: {
  readonly row: MarginRow;
  readonly before: MarginRow | null;
  readonly figure: string;
}) {
  const { row, before, figure } = props;
  return (
    <span className={`margin-figure ${row.status}`} title={row.of}>
      <StateWord status={row.status} />
      <ExplainedFigure of={`${row.group}, ${row.label}`} request={row.request}>
        <Change was={before?.figure} now={figure} />
      </ExplainedFigure>
      <Assumed when={row.assumed === true} /> <span className="unseen">{row.of}</span>
    </span>
  );
}

/** How far apart in view, and in the stay against what is allowed. */
function ApartFigures(props: {
  readonly row: Extract<MarginRow, { kind: "apart" }>;
  readonly before: MarginRow | null;
  readonly low: boolean;
}) {
  const { row, before, low } = props;
  const window = useView((view) => view.window);
  const seen = row.tracks
    .flatMap(({ points }) => points)
    .filter(({ atS }) => atS >= window.startS && atS <= window.endS);
  const inView = seen.length === 0 ? row.figure : metres(Math.max(...seen.map(({ value }) => value)), "up");
  return (
    <>
      <span className="margin-label" title={row.label}>
        <b>Apart</b>
      </span>
      <WorstFigure row={row} before={null} figure={low ? row.figure : inView} />
      {!low && (
        <span className="margin-part">
          <span className="margin-of">stay</span> <Change was={before?.figure} now={row.figure} />
        </span>
      )}
    </>
  );
}

function SuitFigures(props: {
  readonly row: Extract<MarginRow, { kind: "least" }>;
  readonly before: MarginRow | null;
  readonly low: boolean;
}) {
  const { row, before, low } = props;
  const window = useView((view) => view.window);
  const parts = row.parts ?? [];
  const inView = (eva: string): boolean =>
    row.outings.some(
      ([track]) =>
        track?.eva === eva &&
        (track.points[0]?.atS ?? Infinity) < window.endS &&
        (track.points.at(-1)?.atS ?? -Infinity) > window.startS,
    );
  // Worst first, of both.
  const seen = parts.find((part) => inView(part.eva));
  const [stay] = parts;
  const shown = seen ?? stay;
  const was = new Map(before?.parts?.map((part) => [part.eva, part]));
  if (!shown || !stay)
    return (
      <span className="margin-label">
        <b title={row.group}>{row.group}</b> <span className="margin-of">not out</span>
      </span>
    );
  const wasFigure = was.get(shown.eva)?.figure;
  const apart = isStayApart(stay, shown);
  // Two figures take the room of the word.
  const changes = wasFigure !== undefined && wasFigure !== shown.figure;
  return (
    <>
      <span className="margin-label">
        <b title={row.group}>{row.group}</b>
        {low && !changes && <span className="margin-of">{shown.cause}</span>}
      </span>
      <span className={`margin-figure ${shown.status}`} title={partsTitle(parts)}>
        <StateWord status={shown.status} />
        <ExplainedFigure of={`${row.group}, ${shown.name}, ${shown.cause}`} request={shown.request}>
          <Change was={wasFigure} now={shown.figure} />
        </ExplainedFigure>
        <Assumed when={shown.assumed} />
      </span>
      {!low && (
        <span className="margin-part">
          {!apart && <span className="margin-of">{shown.cause}</span>}
          {parts.length > 1 && (
            <>
              <span className="margin-of">{apart ? "stay" : ", stay"}</span>{" "}
              <ExplainedFigure of={`${row.group}, stay, ${stay.cause}`} request={stay.request}>
                {stay.figure}
              </ExplainedFigure>
              <Assumed when={apart} />
            </>
          )}
        </span>
      )}
    </>
  );
}

function partsTitle(parts: readonly MarginPart[]): string {
  return parts.map((part) => `${part.name}: ${part.figure}, ${part.cause}`).join("; ");
}

/** The word stands once in a row, and takes the room of the cause where only the figure of the stay has it. */
function isStayApart(stay: MarginPart, shown: MarginPart): boolean {
  return stay.assumed && !shown.assumed;
}

function StateWord({ status }: { readonly status: MarginRow["status"] }) {
  const word = status === "breach" ? "breach: " : status === "tight" ? "tight: " : null;
  return word !== null && <span className="unseen">{word}</span>;
}

/** A figure that says from what it comes, where it can. */
function ExplainedFigure(props: {
  readonly of: string;
  readonly request: ExplainRequest | undefined;
  readonly children: ReactNode;
}) {
  if (!props.request) return props.children;
  return (
    <From of={props.of} request={props.request}>
      {props.children}
    </From>
  );
}

/** A figure, with what it was where that is another one. */
function Change({ was, now }: { readonly was: string | undefined; readonly now: string }) {
  if (was === undefined || was === now) return <b>{now}</b>;
  // The unit stands once.
  const unit = /\s\S+$/u.exec(now)?.[0] ?? "";
  const before = unit !== "" && was.endsWith(unit) ? was.slice(0, -unit.length) : was;
  return (
    <b className="margin-change">
      <span className="margin-was">{before} to</span> {now}
    </b>
  );
}

/** Height that the margins take. */
export function marginsPx(plan: Plan, which: "all" | "least", sizes: LineSizes): number {
  const suits = plan.crew.length;
  if (which === "least") return suits * sizes.suitPx + sizes.apartPx + 2 * PAD_PX;
  // Some suits have more rows than these: the strips scroll.
  return suits * (7 * sizes.stripPx + HEAD_PX + GAP_PX) + 2 * sizes.stripPx;
}

/** Height of the last strip, with the space below it. */
export function lastStripPx(which: "all" | "least", sizes: LineSizes): number {
  return (which === "least" ? sizes.apartPx : sizes.stripPx) + PAD_PX;
}

/** Space above the first strip and below the last, and between those of two suits, pixels. */
const PAD_PX = 3;
const GAP_PX = 7;
/** Height of the line that says whose the strips below it are, pixels. */
const HEAD_PX = 17;

function placed(
  rows: readonly MarginRow[],
  sizes: LineSizes,
): { readonly places: readonly ListedRow[]; readonly heightPx: number } {
  let top = PAD_PX;
  const least = rows.some((row) => row.kind === "least");
  const places = rows.map((row, i) => {
    const begins = !least && rows[i - 1]?.group !== row.group;
    if (begins && i > 0) top += GAP_PX;
    // Strips of one kind stand in every suit; what is of all says by itself what it is.
    const headPx = begins && row.group !== ALL ? HEAD_PX : 0;
    top += headPx;
    const heightPx = row.kind === "least" ? sizes.suitPx : least ? sizes.apartPx : sizes.stripPx;
    const place = { row, top, heightPx, headPx };
    top += heightPx;
    return place;
  });
  return { places, heightPx: top + PAD_PX };
}

/** A strip shows no less than this share of a stock. */
const LEAST_TOP_SHARE = 0.12;

/** The share at the top of all strips: a little above the most that the least consumable of any suit has to spare. */
function topShareOf(verdict: Verdict): number {
  const worst = new Map<string, MarginTrack>();
  for (const track of verdict.margins) {
    const key = `${track.eva} ${track.crew}`;
    const known = worst.get(key);
    if (!known || track.margin < known.margin) worst.set(key, track);
  }
  const most = Math.max(
    0,
    ...[...worst.values()].flatMap((track) => spareOf(track).points.map(({ value }) => value)),
  );
  return Math.max(LEAST_TOP_SHARE, most * 1.25);
}
