import { useEffect, useMemo, useRef } from "react";
import { FLIGHT_RULES } from "../../../../rules/index.ts";
import type { FitBand, VerdictChange } from "../../../../answers/index.ts";
import { homeY, type Lane, type TimeScale } from "../../../../editor/index.ts";
import { clockText, type Dial } from "../../../../words/index.ts";
import { useSession, useView } from "../../../context.ts";
import { useDial } from "../../../dial.ts";
import { facePx, font } from "../../../parts/canvas/brush.ts";
import type { InHand } from "../../../viewstate.ts";
import { nearestStarts, pinsOf, type Starts } from "../../breachmarks.ts";
import { slabFor, type DayLayout } from "../geometry.ts";
import { type Box, HALF_TEXT_PX } from "../names/place.ts";
import { limitBoxes, markBoxes, stayBoxes } from "../names/signs.ts";
import { skyOf } from "../names/sky.ts";
import { measuring, type Named, SIGN_FACE } from "../names/usenames.ts";
import { WINDOW_FACE, windowBoxes, windowsShown } from "../windowwords.ts";
import {
  boxesMeet,
  labelBox,
  type LabelToPlace,
  type LabelSky,
  type PlacedLabel,
  placeLabels,
} from "./placelabels.ts";

/** What a label of the hand tells. */
type LabelKind = "breach" | "fixed" | "sliding" | "nowhere";

/** Words of the hand in their places, and the names that are not painted under them. */
export interface HandLabels {
  readonly labels: readonly (PlacedLabel & { readonly kind: LabelKind })[];
  /** Keys of names. */
  readonly covered: ReadonlySet<string>;
}

/** The face of labels, as the style sheet has it, and what their box adds to the text. */
const LABEL_FACE = font(12, 560);
const AROUND_PX = 10;

const NONE: HandLabels = { labels: [], covered: new Set() };

/** The labels of what is in hand at a scale: where it breaks a rule, and from when to when it could start. */
export function useHandLabels(layout: DayLayout, scale: TimeScale, named: Named | null): HandLabels {
  const hand = useView((state) => state.inHand);
  const difference = useSession((state) => state.preview?.difference ?? null);
  const bands = useSession((state) => state.fitBands);
  const gridS = useSession((state) => state.plan.rules.startGridS);
  const dial = useDial();
  const had = useRef<readonly PlacedLabel[]>([]);
  const placed = useMemo(() => {
    const ctx = hand && difference ? measuring() : null;
    if (!hand || !difference || !ctx) return [];
    const wide = (text: string): number => Math.ceil(facePx(ctx, LABEL_FACE, text)) + AROUND_PX;
    const handLabels = [
      ...flags(hand, { layout, bands, gridS, dial }),
      ...pins(hand, { layout, difference, dial }),
    ];
    const toPlace = handLabels
      .map((one) => ({ ...one, widthPx: wide(one.text), x: one.atS === null ? 0 : scale.x(one.atS) }))
      .filter(({ x }) => x >= 0 && x <= scale.widthPx);
    const signPx = (text: string): number => facePx(ctx, SIGN_FACE, text);
    const [only, ...others] = hand.tasks;
    const task = only === undefined || others.length > 0 ? undefined : layout.tasks.get(only);
    const windows = task
      ? windowsShown(layout.plan, task, scale, (text) => facePx(ctx, WINDOW_FACE, text))
      : [];
    const skies = new Map<string, LabelSky | null>();
    const lookOver = (lane: Lane): LabelSky => {
      const sky = labelSky(layout, lane, scale, hand.tasks, named, signPx);
      return { ...sky, taken: [...sky.taken, ...windowBoxes(windows, lane)] };
    };
    const skyOver = (key: string): LabelSky | null => {
      const known = skies.get(key);
      if (known !== undefined) return known;
      const lane = layout.lanes.find((one) => one.key === key && one.crew !== null);
      const sky = lane ? lookOver(lane) : null;
      skies.set(key, sky);
      return sky;
    };
    const kinds = new Map(handLabels.map(({ key, kind }) => [key, kind]));
    return placeLabels(toPlace, skyOver, had.current).map((one) => ({
      ...one,
      kind: kinds.get(one.key) ?? "nowhere",
    }));
  }, [hand, difference, bands, gridS, dial, layout, scale, named]);
  useEffect(() => {
    had.current = placed;
  }, [placed]);
  const under = named ? coveredBy(placed, named, scale).join("\n") : "";
  const covered = useMemo(() => new Set(under === "" ? [] : under.split("\n")), [under]);
  return useMemo(() => (placed.length === 0 ? NONE : { labels: placed, covered }), [placed, covered]);
}

interface HandLabel extends Omit<LabelToPlace, "widthPx" | "x"> {
  readonly kind: LabelKind;
  /** The time of its line; null at the left edge. */
  readonly atS: number | null;
}

/** First and last start on the lane that it is held over, and how far these go if the others slide. */
function flags(
  { target, tasks }: InHand,
  of: {
    readonly layout: DayLayout;
    readonly bands: readonly FitBand[] | null;
    readonly gridS: number;
    readonly dial: Dial;
  },
): readonly HandLabel[] {
  const { layout, bands, gridS, dial } = of;
  if (!bands || target.at !== "line" || !layout.lanes.some(({ key }) => key === target.lane)) return [];
  const lanes = [target.lane];
  const { fixed, sliding } = nearestStarts(bands, target.lane, target.startS, gridS);
  if (!fixed && !sliding) {
    const text = "fits nowhere on this lane as the day stands";
    return tasks.length > 1
      ? []
      : [{ key: "nowhere", kind: "nowhere", text, atS: null, side: "after", lanes }];
  }
  const pair = (kind: "fixed" | "sliding", { firstS, lastS }: Starts): readonly HandLabel[] => {
    const flag = (atS: number, word: "first" | "last" | "only"): HandLabel => ({
      key: `${kind} ${word}`,
      kind,
      text:
        kind === "fixed"
          ? `${word} start ${clockText(dial, atS)}`
          : `${clockText(dial, atS)} if the others slide`,
      atS,
      side: word === "last" ? "after" : "before",
      lanes,
    });
    return firstS === lastS ? [flag(firstS, "only")] : [flag(firstS, "first"), flag(lastS, "last")];
  };
  return [
    ...(fixed ? pair("fixed", fixed) : []),
    ...(sliding && !same(fixed, sliding) ? pair("sliding", sliding) : []),
  ];
}

function same(a: Starts | null, b: Starts): boolean {
  return a !== null && a.firstS === b.firstS && a.lastS === b.lastS;
}

/** The breaches that it makes, by the minute at which they begin: away from the lane that it is held over, where its starts are told. */
function pins(
  { target }: InHand,
  of: { readonly layout: DayLayout; readonly difference: VerdictChange; readonly dial: Dial },
): readonly HandLabel[] {
  const { layout, difference, dial } = of;
  const crewed = layout.lanes.filter(({ crew }) => crew !== null).map(({ key }) => key);
  const over = target.at === "line" ? crewed.indexOf(target.lane) : 0;
  const farthest = crewed.toSorted(
    (a, b) => Math.abs(crewed.indexOf(b) - over) - Math.abs(crewed.indexOf(a) - over),
  );
  return pinsOf(difference).map(({ atS, finding }, nth) => ({
    key: `pin ${nth}`,
    kind: "breach",
    text: `${FLIGHT_RULES[finding.rule].words}, ${clockText(dial, atS)}`,
    atS,
    side: "before",
    lanes: farthest,
  }));
}

/** The sky of a lane as it is now, with what is written there. */
function labelSky(
  layout: DayLayout,
  lane: Lane,
  scale: TimeScale,
  inHand: readonly string[],
  named: Named | null,
  signPx: (text: string) => number,
): LabelSky {
  const { rows, ribbon } = skyOf(layout, lane, scale, []);
  const home = homeY(lane);
  const outs = (...ys: readonly number[]): readonly number[] => ys.map((y) => Math.abs(y - home));
  return {
    lane: lane.key,
    rows: rows.length > 0 ? rows : [lane.heightPx - HALF_TEXT_PX],
    ribbon,
    inHand: layout.blocks.flatMap((block): readonly Box[] => {
      const slab =
        block.lane === lane.key && inHand.includes(block.task) ? slabFor(layout, scale, block) : null;
      if (!slab) return [];
      const edges = outs(slab.topLeft, slab.topRight, slab.bottomLeft, slab.bottomRight);
      return [{ x0: slab.left, x1: slab.right, out0: Math.min(...edges), out1: Math.max(...edges) }];
    }),
    taken: [
      ...limitBoxes(layout, lane, scale),
      ...markBoxes(layout, lane, scale),
      ...stayBoxes(layout, lane, scale, signPx),
    ],
    names: named ? namesIn(named, lane.key, scale).map(({ box }) => box) : [],
    widthPx: scale.widthPx,
  };
}

/** Names of a lane with the room that they take at a scale. */
function namesIn(
  named: Named,
  lane: string,
  scale: TimeScale,
): readonly { readonly key: string; readonly box: Box }[] {
  return named.names
    .filter((one) => one.lane === lane)
    .map(({ key, x0, x1, out, hair }) => {
      const by = scale === named.scale ? 0 : scale.x(named.scale.at(hair)) - hair;
      return { key, box: { x0: x0 + by, x1: x1 + by, out0: out - HALF_TEXT_PX, out1: out + HALF_TEXT_PX } };
    });
}

/** Keys of the names under labels. */
function coveredBy(labels: readonly PlacedLabel[], named: Named, scale: TimeScale): readonly string[] {
  if (labels.length === 0) return [];
  const boxes = labels.map((one) => ({ lane: one.lane, box: labelBox(one) }));
  return [...new Set(boxes.map(({ lane }) => lane))].flatMap((lane) =>
    namesIn(named, lane, scale)
      .filter(({ box }) => boxes.some((one) => one.lane === lane && boxesMeet(one.box, box)))
      .map(({ key }) => key),
  );
}
