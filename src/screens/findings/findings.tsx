import { memo, useMemo } from "react";
import type { Finding } from "../../answers/index.ts";
import { FLIGHT_RULES } from "../../rules/index.ts";
import { type DeskState, shownVerdict, worseWords } from "../../session/index.ts";
import { clock, counted } from "../../words/index.ts";
import { useAround, useDesk, useLook } from "../context.ts";
import { useDay } from "../day/around.ts";
import { goToFinding } from "../day/findingway.ts";
import { From } from "../from/from.tsx";
import { BelowWish } from "./belowwish.tsx";
import { useCalm } from "../settled.ts";
import { findingKey, LEVEL_WORDS, readFindings } from "../words.ts";

const NONE: ReadonlyMap<string, string> = new Map();

/** What the move changes for the worse, by finding; nothing is always the same nothing, so that taking in hand is no change yet. */
function changesOf({ preview }: DeskState): DeskState["preview"] {
  const difference = preview?.difference;
  return !difference || difference.gained.length + difference.worse.length === 0 ? null : preview;
}

function changeWords(preview: DeskState["preview"]): ReadonlyMap<string, string> {
  if (!preview) return NONE;
  const { gained, worse } = preview.difference;
  return new Map([
    ...gained.map((finding) => [findingKey(finding), "new"] as const),
    ...worse.map((shift) => [findingKey(shift.finding), worseWords(shift)] as const),
  ]);
}

/** What breaks a rule or comes close to it: breaches first, then must-do tasks left out, then tight ones. */
export const Findings = memo(function Findings() {
  const verdict = useCalm(useDesk(shownVerdict));
  const changed = useCalm(useDesk(changesOf));
  const inHand = useLook((state) => state.inHand !== null);
  const chosen = useLook((state) => state.chosen);
  const inOrder = useMemo(() => readFindings(verdict.findings), [verdict]);
  const changes = useMemo(() => changeWords(changed), [changed]);
  const count = (level: Finding["level"]): number => inOrder.filter((one) => one.level === level).length;

  return (
    <section className="findings" aria-label="Findings">
      <header className="part-head">
        <h2>Findings</h2>
        <span className="note">
          {counted(count("breach"), "breach", "breaches")}, {count("open")} open, {count("tight")} tight
          {inHand ? ", with the task in hand" : ""}
        </span>
      </header>
      <BelowWish />
      {inOrder.length === 0 && <p className="empty">No rule is broken and none is kept by little.</p>}
      <ol className="finding-list">
        {inOrder.map((finding, i) => (
          <FindingRow
            // Numbers change while a task is in hand; the row stays the same row.
            key={`${findingKey(finding)}${i > 0 && findingKey(inOrder[i - 1]!) === findingKey(finding) ? i : ""}`}
            finding={finding}
            change={changes.get(findingKey(finding)) ?? null}
            chosen={chosen !== null && findingKey(chosen) === findingKey(finding)}
          />
        ))}
      </ol>
    </section>
  );
});

interface RowProps {
  readonly finding: Finding;
  /** What the move in hand does to it for the worse. */
  readonly change: string | null;
  readonly chosen: boolean;
}

const FindingRow = memo(function FindingRow(props: RowProps) {
  const { finding } = props;
  const { desk, look } = useAround();
  const { windows } = useDay();
  const go = (): void => goToFinding(desk, look, windows, finding);
  return (
    <li>
      <button
        type="button"
        className={`finding ${finding.level}${props.change !== null ? " fresh" : ""}`}
        aria-pressed={props.chosen}
        onClick={go}
      >
        <span className={`state ${finding.level}`}>{LEVEL_WORDS[finding.level]}</span>
        <span className="finding-rule narrow">{FLIGHT_RULES[finding.rule].words}</span>
        {finding.span && <span className="finding-when">{clock(finding.span.startS)}</span>}
        {props.change !== null && <span className="finding-new">{props.change}</span>}
        <span className="finding-sentence">{finding.sentence}</span>
      </button>
      <div className="finding-ask">
        <From
          of={FLIGHT_RULES[finding.rule].words}
          ask={{ what: "finding", rule: finding.rule, subjects: finding.subjects }}
        />
        {finding.level !== "tight" && (
          <button
            type="button"
            className="quiet card-ask"
            aria-label={`Why not? ${finding.sentence}`}
            onClick={() => void desk.askWhy(leftOut(finding), { finding: finding.sentence })}
          >
            Why not?
          </button>
        )}
      </div>
    </li>
  );
}, sameRow);

/** Every judgement makes its findings anew; a row stays as it is while they say the same. */
function sameRow(a: RowProps, b: RowProps): boolean {
  return (
    a.change === b.change &&
    a.chosen === b.chosen &&
    a.finding.sentence === b.finding.sentence &&
    a.finding.span?.startS === b.finding.span?.startS &&
    findingKey(a.finding) === findingKey(b.finding)
  );
}

/** The must-do task that a finding says is left out; null for a breach, which is about the day. */
function leftOut(finding: Finding): string | null {
  if (finding.level !== "open") return null;
  return finding.subjects.find((subject) => subject.kind === "task")?.id ?? null;
}
