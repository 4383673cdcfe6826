import type { Finding } from "../../../answers/index.ts";
import { useMemo } from "react";
import type { TimeScale } from "../../../editor/index.ts";
import { chancesAtRest } from "../../../session/index.ts";
import { useSession, useView } from "../../context.ts";
import { HandLayer } from "../handlayer.tsx";
import { Moved } from "../moved.tsx";
import { Pointed } from "../pointed.tsx";
import { BandStill } from "./bandstill.tsx";
import { BlockButtons } from "./buttons.tsx";
import { bandsOf, type DayLayout } from "./geometry.ts";
import { EvaBars } from "./evabars.tsx";
import { useGhosts } from "./ghosts.tsx";
import { useKnown } from "./known.ts";
import { useHandLabels } from "./labels/uselabels.ts";
import { useLaneInSight } from "./laneinsight.ts";
import { LassoBox } from "./lasso.tsx";
import { useLinePointer } from "./linepointer.ts";
import { useNames } from "./names/usenames.ts";
import { OverLayer } from "./overlayer.tsx";
import { useStandstill } from "./standstill.ts";
import type { LineOnPage } from "./theline.ts";

/** The lanes: a still layer that is painted when the day or the window changes, and one for what is in hand. */
export function DayLine(props: {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
  readonly onPage: LineOnPage;
}) {
  const { layout, scale, onPage } = props;
  const chosen = useView((state) => state.chosen);
  const selection = useSession((state) => state.selection);
  const inHand = useView((state) => (state.inHand === null ? NOTHING : state.inHand.tasks));
  // They come ten times a second while something is in hand; the line is painted sixty times.
  const chances = useSession(chancesAtRest);
  const known = useKnown(chances);
  const restScale = useStandstill(scale);
  const named = useNames(layout, restScale, scale === restScale, known);
  const { labels, covered } = useHandLabels(layout, scale, named);
  useLaneInSight(onPage, chosen);
  const pointer = useLinePointer({ layout, scale, onPage });
  return (
    <div
      ref={onPage.stage}
      className={inHand.length > 0 ? "stage holding" : "stage"}
      style={{ height: layout.lanesPx }}
      {...pointer}
    >
      <Bands layout={layout} scale={scale} selection={selection} inHand={inHand} chosen={chosen} {...known} />
      <OverLayer
        layout={layout}
        scale={scale}
        restScale={restScale}
        named={named}
        covered={covered}
        report={chances}
        selection={selection}
        only={onlyOf(inHand, selection)}
      />
      <EvaBars layout={layout} scale={scale} />
      <BlockButtons layout={layout} scale={restScale} chances={chances} />
      {inHand.length === 0 && <EmptyHint layout={layout} />}
      <HandLayer layout={layout} scale={scale} labels={labels} />
      <Moved layout={layout} scale={scale} />
      <Pointed layout={layout} scale={scale} />
      <LassoBox />
    </div>
  );
}

/** The still layer, a band for each line home. */
function Bands(props: {
  readonly layout: DayLayout;
  readonly scale: TimeScale;
  readonly selection: readonly string[];
  readonly inHand: readonly string[];
  readonly chosen: Finding | null;
  readonly slack: ReadonlyMap<string, number>;
  readonly plates: ReadonlySet<string>;
}) {
  const { layout, inHand } = props;
  const bands = useSession((state) => (inHand.length === 1 ? state.fitBands : null));
  const ghosts = useGhosts(layout);
  const rows = useMemo(() => bandsOf(layout.lanes), [layout.lanes]);
  return rows.map((lanes) => (
    <BandStill {...props} key={lanes[0]?.key} lanes={lanes} bands={bands} ghosts={ghosts} />
  ));
}

function EmptyHint({ layout: { blocks, tasks } }: { readonly layout: DayLayout }) {
  if (blocks.length > 0 || tasks.size === 0) return null;
  return (
    <p className="line-hint">
      <span>
        <b>Nothing is on the line yet.</b> Drag tasks here from the bench, or let Pack fill the day.
      </span>
    </p>
  );
}

const NOTHING: readonly string[] = [];

/** The one task that is in hand, or selected where nothing is. */
function onlyOf(inHand: readonly string[], selection: readonly string[]): string | null {
  const alone = inHand.length === 0 ? selection : inHand;
  return alone.length === 1 ? (alone[0] ?? null) : null;
}
