import { memo, type ReactNode, useMemo, useRef } from "react";
import type { FromAsk, MarginTrack } from "../../answers/index.ts";
import type { Course, TimeScale } from "../../editor/index.ts";
import { shownPlan, shownSchedule, shownVerdict } from "../../session/index.ts";
import { useAround, useDesk } from "../context.ts";
import { useDay } from "../day/around.ts";
import { From } from "../from/from.tsx";
import type { Brush } from "../day/line/brush.ts";
import { KeptCanvas } from "../day/line/canvas.tsx";
import { around, type Changed, type Columns, columnsOf, courseChange, within } from "../day/line/changed.ts";
import { usePanning } from "../day/line/panning.ts";
import { LEAST_STRIP_PX, STRIP_GAP_PX, STRIP_PX } from "../day/line/sizes.ts";
import { useCalm } from "../settled.ts";
import { useBefore } from "./before.ts";
import { CursorValues } from "./cursorvalues.tsx";
import { paintMargins, type RowPlace, rowPx } from "./paintmargins.ts";
import { type MarginRow, marginRows } from "./rows.ts";

/** What is left of everything, under the same time axis as the lanes: shape in the middle, worst figure at the right. */
export function Margins(props: { readonly scale: TimeScale; readonly which: "all" | "least" }) {
  const { scale, which } = props;
  const { look } = useAround();
  const { windows } = useDay();
  const plan = useDesk(shownPlan);
  const schedule = useDesk(shownSchedule);
  const verdict = useDesk(shownVerdict);
  const held = useBefore();
  const stage = useRef<HTMLDivElement>(null);
  const panning = usePanning(stage, scale, windows, false);

  const rows = useMemo(() => marginRows(plan, schedule, verdict, which), [plan, schedule, verdict, which]);
  const wasPlan = held?.plan ?? null;
  const wasVerdict = held?.verdict ?? null;
  const before = useMemo(
    () => (wasPlan && wasVerdict ? marginRows(wasPlan, wasPlan.schedule, wasVerdict, which) : null),
    [wasPlan, wasVerdict, which],
  );
  const { places, heightPx } = useMemo(() => placed(rows), [rows]);
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
          look.setState({ cursorS: scale.at(event.clientX - box.left) });
        }}
        onPointerLeave={() => look.setState({ cursorS: null })}
      >
        {groups.map((group) => (
          <div key={group.name} className="margin-group" style={{ top: group.top }}>
            <GroupStill group={group} before={before} scale={scale} />
          </div>
        ))}
        <CursorValues places={places} scale={scale} />
      </div>
    </section>
  );
}

/** What the rows are and their worst: figures are read, so they follow calmly what the pictures follow at once. */
const Figures = memo(function Figures(props: {
  readonly places: readonly RowPlace[];
  readonly heightPx: number;
  readonly before: readonly MarginRow[] | null;
}) {
  const places = useCalm(props.places);
  const before = useCalm(props.before);
  const was = useMemo(() => new Map(before?.map((row) => [row.key, row])), [before]);
  return (
    <ul className="margin-rows" style={{ height: props.heightPx }}>
      {places.map(({ row, top }, i) => (
        <li key={row.key} style={{ top, height: rowPx(row) }}>
          <span className="margin-label">
            {(i === 0 || places[i - 1]!.row.group !== row.group) && <b title={row.group}>{row.group}</b>}
            <span className="narrow">{row.label}</span>
          </span>
          <Figure row={row} before={was.get(row.key) ?? null} />
        </li>
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
      heightPx: last ? last.top + rowPx(last.row) + 1 - top : 0,
      places: own.map((place) => ({ row: place.row, top: place.top - top })),
    };
  });
}

interface Drawn {
  readonly group: Group;
  readonly before: readonly MarginRow[] | null;
  readonly scale: TimeScale;
}

/** The picture of one group. A move changes the suits of one EVA: of the others nothing is painted anew. */
function GroupStill(props: Drawn) {
  const { group, before, scale } = props;
  const drawn = useMemo((): Drawn => ({ group, before, scale }), [group, before, scale]);
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
  if (was.scale !== now.scale || was.before !== now.before) return "all";
  const stretch = groupChange(was.group, now.group);
  if (stretch === "anywhere") return "all";
  return stretch && columnsOf(stretch, now.scale, BEYOND_PX);
}

function paintGroup(brush: Brush, { group, before, scale }: Drawn, columns: Columns | null): void {
  paintMargins(brush, group.places, before, within(scale, columns, BEYOND_PX));
}

/** Where two pictures of a group look different: under all of a course that changed, since its greatest value may set its height. */
function groupChange(a: Group, b: Group): Changed {
  if (a.places.length !== b.places.length) return "anywhere";
  const changes: Course["points"][number][] = [];
  for (const [i, { row, top }] of a.places.entries()) {
    const other = b.places[i]!;
    if (top !== other.top || row.key !== other.row.key || measureOf(row) !== measureOf(other.row))
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

/** EVAs whose worst margin stands beside a suit's strip; the others are no better and are in its description. */
const MOST_PARTS = 2;

/** The worst of a row: for a suit by EVA with what bounds it, and while something is in hand what it was before. */
function Figure({ row, before }: { readonly row: MarginRow; readonly before: MarginRow | null }) {
  const state = row.standing === "breach" ? "breach: " : row.standing === "tight" ? "tight: " : null;
  const said = state !== null && <span className="unseen">{state}</span>;
  if (row.kind !== "least" || !row.parts || row.parts.length === 0) {
    return (
      <span className={`margin-figure ${row.standing}`}>
        {said}
        <span className="margin-worst">
          {row.kind === "stock" && row.parts?.[0] && (
            <span className="margin-of narrow">{row.parts[0].name}</span>
          )}{" "}
          <Asked of={`${row.group}, ${row.label}`} ask={row.ask}>
            <Change was={before?.figure} now={row.figure} />
          </Asked>
        </span>{" "}
        <span className="unseen">{row.of}</span>
      </span>
    );
  }
  const was = new Map(before?.parts?.map((part) => [part.eva, part]));
  return (
    <span
      className={`margin-figure ${row.standing}`}
      title={row.parts.map((part) => `${part.name}: ${part.figure}, ${part.cause}`).join("; ")}
    >
      {said}
      {row.parts.slice(0, MOST_PARTS).map((part) => (
        <span key={part.eva} className="margin-part narrow">
          <span>{part.name}</span>{" "}
          <Asked of={`${row.group}, ${part.name}, ${part.cause}`} ask={part.ask}>
            <Change was={was.get(part.eva)?.figure} now={part.figure} />
          </Asked>{" "}
          <span className="margin-of">{part.cause}</span>
        </span>
      ))}
    </span>
  );
}

/** A figure that says from what it comes, where it can. */
function Asked(props: {
  readonly of: string;
  readonly ask: FromAsk | undefined;
  readonly children: ReactNode;
}) {
  if (!props.ask) return props.children;
  return (
    <From of={props.of} ask={props.ask}>
      {props.children}
    </From>
  );
}

/** A figure, with what it was where that is another one. */
function Change({ was, now }: { readonly was: string | undefined; readonly now: string }) {
  if (was === undefined || was === now) return <b>{now}</b>;
  return (
    <b className="margin-change">
      <s>{was.replace(" %", "")}</s> {now}
    </b>
  );
}

/** Height that the margins want. */
export function marginsPx(crew: number, which: "all" | "least"): number {
  const suit = which === "all" ? 7 * STRIP_PX : LEAST_STRIP_PX + STRIP_PX;
  return crew * (suit + STRIP_GAP_PX) + 2 * STRIP_PX + 8;
}

function placed(rows: ReturnType<typeof marginRows>): { places: readonly RowPlace[]; heightPx: number } {
  let top = 2;
  const places = rows.map((row, i) => {
    if (i > 0 && rows[i - 1]!.group !== row.group) top += STRIP_GAP_PX;
    const place = { row, top };
    top += rowPx(row);
    return place;
  });
  return { places, heightPx: top + 4 };
}
