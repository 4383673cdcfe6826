import { memo, useEffect, useMemo, useRef } from "react";
import { type Block, readingOrder, type TimeScale } from "../../../editor/index.ts";
import { clock, counted, crewName, evaName, placeName } from "../../../words/index.ts";
import { useApp, useSession, useView } from "../../context.ts";
import type { ChancesReport, TaskChance } from "../../../answers/index.ts";
import { belowWords, slackWords } from "../../chancewords.ts";
import { KIND_WORDS } from "../../words.ts";
import { isJoint, shows, slabFor, type DayLayout } from "./geometry.ts";
import { useStill } from "./still.ts";

/**
 * A button over every block on screen: it carries the block's name for readers and tests, and the keyboard's focus.
 * Pointers go through it to the lanes below. While the window moves on and on the buttons wait until it rests: they are
 * not seen, and laying hundreds of them out costs more than painting the lanes.
 */
export function BlockButtons(props: ButtonsProps) {
  // Pointers go through the buttons: under a pointer's drag they may stay where they were.
  const layout = useStill(props.layout);
  return <Buttons layout={layout} scale={props.scale} chances={props.chances} />;
}

interface ButtonsProps {
  readonly layout: DayLayout;
  /** Where the window stands, or stood before it moved. */
  readonly scale: TimeScale;
  /** Null while they are not known or something is in hand. */
  readonly chances: ChancesReport | null;
}

const Buttons = memo(function Buttons(props: ButtonsProps) {
  const { layout, scale, chances } = props;
  const selection = useSession((state) => state.selection);
  const focus = useView((view) => view.focus);
  const inHand = useView((view) => view.inHand?.tasks ?? null);

  const inOrder = useMemo(() => readingOrder(layout.blocks, layout.lanes), [layout]);
  const counts = useMemo(() => findingCounts(layout), [layout]);
  const known = useMemo(() => new Map(chances?.tasks.map((one) => [one.task, one])), [chances]);
  const keys = useMemo(() => keysOf(layout.blocks), [layout]);
  const focused =
    inOrder.find((block) => block.task === focus?.task && block.lane === focus.lane) ??
    inOrder.find((block) => block.task === focus?.task) ??
    inOrder.find((block) => shows(scale, block)) ??
    inOrder[0];

  return (
    <div className="blocks">
      {layout.lanes.map((lane) => (
        <div key={lane.key} role="group" aria-label={`Lane ${lane.name}`}>
          {inOrder
            .filter((block) => block.lane === lane.key && (shows(scale, block) || block === focused))
            .map((block) => {
              const slab = slabFor(layout, scale, block);
              if (!slab) return null;
              return (
                <BlockButton
                  key={keys.get(block)}
                  task={block.task}
                  lane={block.lane}
                  joint={isJoint(block, lane) ? lane.sense : null}
                  name={nameOf(
                    layout,
                    block,
                    counts.get(block.task) ?? 0,
                    chanceWords(chances, known.get(block.task)),
                  )}
                  left={Math.round(slab.left)}
                  top={Math.round(Math.min(slab.topLeft, slab.topRight))}
                  width={Math.max(5, Math.round(slab.right - slab.left))}
                  height={Math.round(
                    Math.max(slab.bottomLeft, slab.bottomRight) - Math.min(slab.topLeft, slab.topRight),
                  )}
                  selected={selection.includes(block.task)}
                  isInHand={inHand?.includes(block.task) ?? false}
                  reached={block === focused}
                  wanted={focus?.task === block.task && focus.lane === block.lane}
                />
              );
            })}
        </div>
      ))}
    </div>
  );
});

const BlockButton = memo(function BlockButton(props: {
  readonly task: string;
  readonly lane: string;
  /** Which half of a block across the line home this is; null of any other. */
  readonly joint: "up" | "down" | null;
  readonly name: string;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly selected: boolean;
  readonly isInHand: boolean;
  readonly reached: boolean;
  readonly wanted: boolean;
}) {
  const { view } = useApp();
  const ref = useRef<HTMLButtonElement>(null);
  // The focus follows when a key or a set-down task has moved it, never out of another part of the page.
  useEffect(() => {
    const active = document.activeElement;
    const free = active === document.body || active === null || active.closest("[data-line]") !== null;
    if (props.wanted && free && active !== ref.current) ref.current?.focus({ preventScroll: true });
  }, [props.wanted]);
  return (
    <button
      ref={ref}
      type="button"
      className={props.isInHand ? "block held" : "block"}
      data-task={props.task}
      data-lane={props.lane}
      data-joint={props.joint ?? undefined}
      aria-label={props.name}
      title={props.name}
      aria-pressed={props.selected}
      tabIndex={props.reached ? 0 : -1}
      style={{ left: props.left, top: props.top, width: props.width, height: props.height }}
      onFocus={() => view.setState({ focus: { task: props.task, lane: props.lane } })}
    />
  );
});

/** A task for two has two blocks: the first and the second, whichever lanes they are on. */
function keysOf(blocks: readonly Block[]): ReadonlyMap<Block, string> {
  const seen = new Map<string, number>();
  return new Map(
    blocks.map((block) => {
      const nth = seen.get(block.task) ?? 0;
      seen.set(block.task, nth + 1);
      return [block, `${block.task}#${nth}`];
    }),
  );
}

/** What the simulated days say of a task: below the wish, and its slack. */
function chanceWords(report: ChancesReport | null, one: TaskChance | undefined): readonly string[] {
  if (!report || !one) return [];
  const below = belowWords(one, report);
  return [...(below === null ? [] : [below]), ...(one.slackS === null ? [] : [slackWords(one.slackS)])];
}

function nameOf(layout: DayLayout, block: Block, findings: number, chances: readonly string[]): string {
  const { plan } = layout;
  const task = layout.tasks.get(block.task);
  if (!task) return block.task;
  const parts = [
    task.name,
    KIND_WORDS[task.kind].toLowerCase(),
    ...(task.place === undefined ? [] : [`at ${placeName(plan, task.place)}`]),
    `${clock(block.startS)} to ${clock(block.endS)}`,
    block.eva === null ? "by command" : `${crewName(plan, block.lane)}, ${evaName(plan, block.eva)}`,
  ];
  if (task.must) parts.push("must do");
  if (task.pin) parts.push("pinned");
  parts.push(...chances);
  if (findings > 0) parts.push(counted(findings, "finding"));
  return parts.join(", ");
}

function findingCounts(layout: DayLayout): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const finding of layout.verdict.findings) {
    for (const subject of finding.subjects) {
      if (subject.kind === "task") counts.set(subject.id, (counts.get(subject.id) ?? 0) + 1);
    }
  }
  return counts;
}
