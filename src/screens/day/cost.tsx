import { memo } from "react";
import type { Score } from "../../answers/index.ts";
import { MANNER_WORDS, otherManner } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import { easedWords, type Preview, worseWords } from "../../session/index.ts";
import {
  clockText,
  counted,
  crewName,
  evaName,
  lasting,
  metres,
  percent,
  shift,
  signed,
} from "../../words/index.ts";
import { useDesk, useLook } from "../context.ts";
import type { InHand } from "../look.ts";
import { marginCause, worstMargin } from "../words.ts";
import { useDial } from "./dial.ts";
import { stuckWords } from "./speech.ts";

/** What the move costs, beside the pointer (or, by keys, at the head of the line) for as long as a task is in hand. */
export const MoveCost = memo(function MoveCost() {
  const hand = useLook((look) => look.inHand);
  const preview = useDesk((state) => state.preview);
  const plan = useDesk((state) => state.plan);
  const before = useDesk((state) => state.verdict);
  if (!hand || !preview) return null;
  const { gained, lost, worse, eased } = preview.difference;
  const { score } = preview.verdict;
  const breaches = gained.filter((finding) => finding.level === "breach");
  const tight = gained.filter((finding) => finding.level === "tight");
  const farther = worse.filter(({ finding }) => finding.level === "breach");
  const nearer = worse.filter(({ finding }) => finding.level !== "breach");
  const worst = worstMargin(preview.verdict);
  const was = worstMargin(before);
  const cause = worst ? marginCause(plan, worst) : null;
  const causeWas = was ? marginCause(plan, was) : null;
  return (
    <div className="cost-layer">
      <div className="cost" style={place(hand.pointer)} aria-hidden="true">
        <Whereto hand={hand} preview={preview} plan={plan} />
        {hand.snap?.to && <p className="note">{hand.snap.to.why}</p>}
        <p className="cost-manner">
          <b>{MANNER_WORDS[hand.manner]}</b>
          {hand.slid.size > 0 && (
            <span>
              {counted(hand.slid.size, "other")} later, up to {lasting(Math.max(...hand.slid.values()), "up")}
            </span>
          )}
        </p>
        {stuckWords(plan, hand.stuck) !== null && (
          <p className="state tight cost-stuck">{stuckWords(plan, hand.stuck)}</p>
        )}
        <ul>
          {breaches.slice(0, 2).map((finding, i) => (
            // Figures in the sentence change in every frame; the line stays the same line.
            <li key={i} className="state breach">
              {finding.sentence}
            </li>
          ))}
          {breaches.length > 2 && (
            <li className="state breach">
              and {counted(breaches.length - 2, "more breach", "more breaches")}
            </li>
          )}
          {farther.slice(0, 2).map((shift, i) => (
            <li key={`worse ${i}`} className="state breach">
              {capital(worseWords(shift))}: {shift.finding.sentence}
            </li>
          ))}
          {farther.length > 2 && (
            <li className="state breach">
              and {counted(farther.length - 2, "more breach", "more breaches")} worse
            </li>
          )}
          {breaches.length === 0 && tight.length > 0 && <li className="state tight">{tight[0]!.sentence}</li>}
          {breaches.length + farther.length + tight.length === 0 && nearer[0] && (
            <li className="state tight">
              {capital(worseWords(nearer[0]))}: {nearer[0].finding.sentence}
            </li>
          )}
          {gained.length + worse.length === 0 && <li className="state fine">Breaks nothing new</li>}
          {gained.length + worse.length === 0 && lost[0] && (
            <li className="note">Mends: {lost[0].sentence}</li>
          )}
          {gained.length + worse.length === 0 && eased[0] && (
            <li className="note">
              {capital(easedWords(eased[0]))}: {eased[0].finding.sentence}
            </li>
          )}
        </ul>
        <dl>
          {figures(before.score, score).map(([name, old, now, change]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>
                {old === now ? now : `${old} → ${now}`} {change !== "" && <i>({change})</i>}
              </dd>
            </div>
          ))}
          {cause !== null && (
            <div>
              <dt>Least in</dt>
              <dd>{causeWas === null || causeWas === cause ? cause : `${cause}, was ${causeWas}`}</dd>
            </div>
          )}
          <div>
            <dt>Findings</dt>
            <dd>
              {gained.length} new, {worse.length} worse, {eased.length} better, {lost.length} gone
            </dd>
          </div>
        </dl>
        <p className="note">
          {hand.by === "keys"
            ? `Enter sets down, Esc takes back, O: ${MANNER_WORDS[otherManner(hand.manner)].toLowerCase()}`
            : `Shift: ${MANNER_WORDS[otherManner(hand.manner)].toLowerCase()}. Alt: no snapping. Esc takes back`}
        </p>
      </div>
    </div>
  );
});

/** What is in hand and where it would be: the time, who does it, by how much it moved or what it lasts now. */
function Whereto({ hand, preview, plan }: { hand: InHand; preview: Preview; plan: Plan }) {
  const dial = useDial();
  const { target } = hand;
  const start = preview.start.placements.find((one) => one.task === hand.task);
  const eva = preview.schedule.placements.find((one) => one.task === hand.task)?.eva ?? null;
  const many = hand.tasks.length > 1 || hand.eva !== null;
  if (target.at === "bench") {
    return (
      <p className="cost-place">
        <b>To the bench</b> {many && <span>{counted(hand.tasks.length, "task")}</span>}
      </p>
    );
  }
  if (hand.edge !== null) {
    const lengthIn = (of: Plan): number =>
      of.tasks.find((one) => one.id === hand.task)?.duration.likelyS ?? 0;
    return (
      <p className="cost-place">
        <b>{lasting(lengthIn(preview.plan), "up")}</b> <span>long, was {lasting(lengthIn(plan), "up")}</span>
        <span className="note">
          {hand.edge === "end" ? "ends" : "starts"} {clockText(dial, target.startS, eva)}
        </span>
      </p>
    );
  }
  const crew = preview.schedule.placements.find((one) => one.task === hand.task)?.crew ?? [];
  const lane = crew.length === 0 ? "Remote" : crew.map((member) => crewName(plan, member)).join(" and ");
  const byS = start ? target.startS - start.startS : 0;
  const egress = preview.verdict.outings.find((one) => one.eva === hand.eva)?.span.startS;
  const what = hand.eva === null ? counted(hand.tasks.length, "task") : evaName(plan, hand.eva);
  return (
    <p className="cost-place">
      <b>
        {clockText(
          dial,
          hand.eva === null ? target.startS : (egress ?? target.startS),
          hand.eva === null ? eva : null,
        )}
      </b>{" "}
      <span>{hand.eva !== null ? `${what} out` : many ? what : lane}</span>
      {byS !== 0 && <span className="note">{shift(byS, "given")}</span>}
    </p>
  );
}

function figures(before: Score, after: Score): readonly (readonly [string, string, string, string])[] {
  const margin = (score: Score): string => percent(score.worstMargin / 10_000, "down");
  return [
    ["Worth", String(before.worth), String(after.worth), change(after.worth - before.worth)],
    ["Worst margin", margin(before), margin(after), ""],
    [
      "Walking",
      metres(before.walkM, "up"),
      metres(after.walkM, "up"),
      change(after.walkM - before.walkM, " m"),
    ],
  ];
}

function change(value: number, unit = ""): string {
  return value === 0 ? "" : `${signed(value)}${unit}`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const WIDE = 320;
const TALL = 340;

/** Beside the pointer, on the side that has room, never under the finger. */
function place(pointer: { readonly x: number; readonly y: number } | null): React.CSSProperties {
  if (!pointer) return { right: 24, top: 150 };
  const left = pointer.x + 36 + WIDE < window.innerWidth ? pointer.x + 36 : pointer.x - WIDE - 36;
  const top = Math.max(8, Math.min(pointer.y - 60, window.innerHeight - TALL));
  // Moved and not laid out anew: it follows the pointer in every frame.
  return { left: 0, top: 0, transform: `translate(${Math.max(8, left)}px, ${top}px)` };
}
