import { met, percentLeft, signed } from "../../dayline/index.ts";
import type { Score } from "../../store/index.ts";
import { useDesk, useLook } from "../context.ts";
import { counted, crewName, marginCause, worstMargin } from "../words.ts";

/** What the move costs, beside the pointer (or, by keys, at the head of the line) for as long as a task is in hand. */
export function MoveCost() {
  const hand = useLook((look) => look.inHand);
  const preview = useDesk((state) => state.preview);
  const plan = useDesk((state) => state.plan);
  const before = useDesk((state) => state.verdict.score);
  if (!hand || !preview) return null;
  const { gained, lost } = preview.difference;
  const { score } = preview.verdict;
  const breaches = gained.filter((finding) => finding.level === "breach");
  const tight = gained.filter((finding) => finding.level === "tight");
  const start = preview.start.placements.find((one) => one.task === hand.task);
  const { target } = hand;
  const worst = worstMargin(preview.verdict);
  const byS = target.at === "line" && start ? target.startS - start.startS : null;
  const crew = preview.schedule.placements.find((one) => one.task === hand.task)?.crew ?? [];
  const lane = crew.length === 0 ? "Remote" : crew.map((member) => crewName(plan, member)).join(" and ");
  return (
    <div className="cost" style={place(hand.pointer)} aria-hidden="true">
      <p className="cost-place">
        {target.at === "bench" ? (
          <b>To the bench</b>
        ) : (
          <>
            <b>{met(target.startS)}</b> <span>{lane}</span>
            {byS !== null && byS !== 0 && <span className="note">{minutes(byS)}</span>}
          </>
        )}
      </p>
      {hand.snap?.to && <p className="note">{hand.snap.to.why}</p>}
      <ul>
        {breaches.slice(0, 2).map((finding) => (
          <li key={finding.sentence} className="state breach">
            {finding.sentence}
          </li>
        ))}
        {breaches.length > 2 && (
          <li className="state breach">and {counted(breaches.length - 2, "more breach", "more breaches")}</li>
        )}
        {breaches.length === 0 && tight.length > 0 && <li className="state tight">{tight[0]!.sentence}</li>}
        {gained.length === 0 && <li className="state fine">Breaks nothing new</li>}
      </ul>
      <dl>
        {figures(before, score).map(([name, was, now, change]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              {was === now ? now : `${was} → ${now}`} {change !== "" && <i>({change})</i>}
            </dd>
          </div>
        ))}
        {worst && (
          <div>
            <dt>Least in</dt>
            <dd>{marginCause(plan, worst)}</dd>
          </div>
        )}
        <div>
          <dt>Findings</dt>
          <dd>
            {gained.length} new, {lost.length} gone
          </dd>
        </div>
      </dl>
      <p className="note">
        {hand.by === "keys"
          ? "Enter sets down, Esc takes back, B benches"
          : "Alt moves freely, Esc takes back"}
      </p>
    </div>
  );
}

function figures(before: Score, after: Score): readonly (readonly [string, string, string, string])[] {
  const margin = (score: Score): string => percentLeft(score.worstMargin / 10_000);
  return [
    ["Worth", String(before.worth), String(after.worth), change(after.worth - before.worth)],
    ["Worst margin", margin(before), margin(after), ""],
    [
      "Walking",
      `${Math.ceil(before.walkM / 100) / 10} km`,
      `${Math.ceil(after.walkM / 100) / 10} km`,
      change(after.walkM - before.walkM, " m"),
    ],
  ];
}

function change(value: number, unit = ""): string {
  return value === 0 ? "" : `${signed(value)}${unit}`;
}

function minutes(byS: number): string {
  const seconds = byS % 60;
  const whole = `${signed(Math.trunc(byS / 60))} min`;
  return seconds === 0 ? whole : `${whole} ${Math.abs(seconds)} s`;
}

const WIDE = 320;
const TALL = 340;

/** Beside the pointer, on the side that has room, never under the finger. */
function place(pointer: { readonly x: number; readonly y: number } | null): React.CSSProperties {
  if (!pointer) return { right: 24, top: 150 };
  const left = pointer.x + 36 + WIDE < window.innerWidth ? pointer.x + 36 : pointer.x - WIDE - 36;
  const top = Math.max(8, Math.min(pointer.y - 60, window.innerHeight - TALL));
  return { left: Math.max(8, left), top };
}
