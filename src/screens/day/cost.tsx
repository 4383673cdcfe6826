import { memo, type ReactNode, type RefObject, useLayoutEffect, useRef } from "react";
import type { Finding } from "../../answers/index.ts";
import { MANNER_WORDS, placeHindered } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import { ruleInWords } from "../../rules/index.ts";
import { easedWords, type Preview, worseWords } from "../../session/index.ts";
import {
  briefly,
  clockText,
  counted,
  crewName,
  evaName,
  findingWords,
  grouped,
  lasting,
  metres,
  metresMore,
  numberedTask,
  percent,
  shift,
} from "../../words/index.ts";
import { useSession } from "../context.ts";
import type { InHand } from "../viewstate.ts";
import { useCalmSession } from "../settled.ts";
import { Assumed } from "../parts/assumed.tsx";
import { isWorstAssumed, marginCause, worstMargin } from "../words.ts";
import { useDial } from "../dial.ts";
import { placeWords, stuckWords } from "./speech.ts";

/** What is in hand, at its fixed place: what goes where, what breaks, what it costs. */
export const MoveCost = memo(function MoveCost() {
  const [hand, preview] = useCalmSession((state, view) => [view.inHand, state.preview] as const);
  const plan = useSession((state) => state.plan);
  const ref = useTallest();
  if (!hand || !preview) return null;
  const broken = brokenBy(plan, preview);
  const stuck = cannotWords(plan, hand) ?? stuckWords(plan, hand.stuck);
  return (
    <div ref={ref} className={`cost ${broken.state}`} aria-hidden="true">
      <Whereto hand={hand} preview={preview} plan={plan} />
      <p className={`cost-breaks state ${broken.state}`}>{broken.words}</p>
      <Costs preview={preview} plan={plan} />
      <p className="cost-manner">
        <b>{MANNER_WORDS[hand.manner]}</b>
        {hand.slid.size > 0 && (
          <span>
            {counted(hand.slid.size, "other")} later, up to {lasting(Math.max(...hand.slid.values()), "up")}
          </span>
        )}
        {hand.snap?.to && <span>{hand.snap.to.why}</span>}
      </p>
      {stuck !== null && <p className="state tight">{stuck}</p>}
    </div>
  );
});

/** Keeps a card as high as it has been: what stands below it makes room once, and does not jump with every sentence. */
function useTallest(): RefObject<HTMLDivElement | null> {
  const ref = useRef<HTMLDivElement>(null);
  const tallestPx = useRef(0);
  useLayoutEffect(() => {
    const card = ref.current;
    if (!card || card.offsetHeight <= tallestPx.current) return;
    tallestPx.current = card.offsetHeight;
    card.style.minHeight = `${tallestPx.current}px`;
  });
  return ref;
}

/** Why what is in hand cannot go to the place it is held over; null where it can, or is held elsewhere. */
function cannotWords(
  plan: Plan,
  { task: anchor, tasks, edge, eva, fromLane, target }: InHand,
): string | null {
  if (target.at !== "place") return null;
  const why = placeHindered(plan, { anchor, tasks, edge, eva, fromLane });
  return why && `It keeps its place: ${why}.`;
}

/** What the move breaks or eases, the gravest first: one in its own sentence, several by their rules. */
function brokenBy(
  plan: Plan,
  { difference }: Preview,
): {
  readonly state: "breach" | "tight" | "fine";
  readonly words: string;
} {
  const { gained, worse, lost, eased } = difference;
  const breaches = gained.filter((finding) => finding.level === "breach");
  const farther = worse.filter(({ finding }) => finding.level === "breach");
  const worseOf = (one: (typeof worse)[number]): string =>
    `${capital(worseWords(one))}: ${findingWords(plan, one.finding)}`;
  const sentences = [...breaches.map((one) => findingWords(plan, one)), ...farther.map(worseOf)];
  if (sentences.length === 1) return { state: "breach", words: sentences[0] ?? "" };
  if (sentences.length > 1) {
    const rules = rulesOf([...breaches, ...farther.map(({ finding }) => finding)]);
    return { state: "breach", words: `${counted(sentences.length, "breach", "breaches")}: ${rules}` };
  }
  const tight = gained.find((finding) => finding.level !== "breach");
  if (tight) return { state: "tight", words: findingWords(plan, tight) };
  if (worse[0]) return { state: "tight", words: worseOf(worse[0]) };
  const better = lost[0]
    ? `. Mends: ${findingWords(plan, lost[0])}`
    : eased[0]
      ? `. ${capital(easedWords(eased[0]))}: ${findingWords(plan, eased[0].finding)}`
      : "";
  return { state: "fine", words: `Breaks nothing new${better}` };
}

function rulesOf(findings: readonly Finding[]): string {
  return [...new Set(findings.map(({ rule }) => ruleInWords(rule)))].join(", ");
}

/** What is in hand and where it would be: the time, who does it, by how much it moved or what it lasts now. */
function Whereto({ hand, preview, plan }: { hand: InHand; preview: Preview; plan: Plan }) {
  const dial = useDial();
  const { target } = hand;
  const start = preview.start.placements.find((one) => one.task === hand.task);
  const placement = preview.schedule.placements.find((one) => one.task === hand.task);
  const eva = placement?.eva ?? null;
  const many = hand.tasks.length > 1;
  const what = many ? counted(hand.tasks.length, "task") : numberedTask(plan, hand.task);
  if (target.at === "bench") return <Place what={what} where="the bench" />;
  if (target.at === "place") return <Place what={what} where={placeWords(plan, target.place)} />;
  if (hand.edge !== null) {
    const lengthIn = (of: Plan): number =>
      of.tasks.find((one) => one.id === hand.task)?.duration.likelyS ?? 0;
    const end = `${hand.edge === "end" ? "ends" : "starts"} ${clockText(dial, target.startS, eva)}`;
    const length = `${lasting(lengthIn(preview.plan), "up")} long, was ${lasting(lengthIn(plan), "up")}`;
    return <Place what={what} where={length} note={end} />;
  }
  const byS = start ? target.startS - start.startS : 0;
  const moved = byS === 0 ? null : shift(byS, "given");
  if (hand.eva !== null) {
    const egress = preview.verdict.outings.find((one) => one.eva === hand.eva)?.span.startS;
    return (
      <Place
        what={`${evaName(plan, hand.eva)} out`}
        where={clockText(dial, egress ?? target.startS)}
        note={moved}
      />
    );
  }
  const crew = placement?.crew ?? [];
  const who =
    crew.length === 0 ? "by command" : crew.map((member) => briefly(crewName(plan, member))).join(" and ");
  const at = clockText(dial, target.startS, eva);
  return <Place what={what} where={many ? at : `${at}, ${who}`} note={moved} />;
}

function Place(props: { readonly what: string; readonly where: string; readonly note?: string | null }) {
  return (
    <p className="cost-place">
      <span className="cost-what">{props.what}</span> <b className="cost-where">to {props.where}</b>{" "}
      {props.note && <span className="note">{props.note}</span>}
    </p>
  );
}

/** Worth, the least margin and the walking, each as it was and would be. */
function Costs({ preview, plan }: { readonly preview: Preview; readonly plan: Plan }) {
  const verdict = useSession((state) => state.verdict);
  const [before, after] = [verdict.score, preview.verdict.score];
  const worst = worstMargin(preview.verdict);
  const margin = (of: typeof before): string => percent(of.worstMargin / 10_000, "down");
  const both = (was: string, is: string): string => (was === is ? is : `${was} to ${is}`);
  const walked = after.walkM - before.walkM;
  return (
    <p className="cost-costs">
      <Figure>worth {both(grouped(before.worth), grouped(after.worth))}</Figure>
      {worst && (
        <>
          {" · "}
          <Figure>
            least {both(margin(before), margin(after))}
            <Assumed when={isWorstAssumed(plan, preview.verdict)} />,
          </Figure>{" "}
          {marginCause(plan, worst, briefly)}
        </>
      )}
      {walked !== 0 && (
        <>
          {" · "}
          <Figure>
            walking {metres(after.walkM, "up")} ({metresMore(walked)})
          </Figure>
        </>
      )}
    </p>
  );
}

function Figure({ children }: { readonly children: ReactNode }) {
  return <span className="cost-figure">{children}</span>;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
