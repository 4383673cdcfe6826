import { memo, useMemo, useState } from "react";
import type { Finding } from "../../answers/index.ts";
import { FLIGHT_RULES } from "../../rules/index.ts";
import {
  type SessionState,
  currentPack,
  shownPlan,
  shownVerdict,
  spareWords,
  worseWords,
} from "../../session/index.ts";
import type { Plan } from "../../plan/index.ts";
import {
  clock,
  counted,
  crewName,
  evaName,
  findingWords,
  listed,
  metres,
  numberedTask,
} from "../../words/index.ts";
import { useApp, useSession, useView } from "../context.ts";
import { useDay } from "../day/context.ts";
import { goToFinding } from "../day/findingway.ts";
import { From } from "../parts/from/from.tsx";
import { Prose } from "../parts/prose.tsx";
import { BelowWish } from "./belowwish.tsx";
import { boundWords } from "./boundwords.ts";
import { OpenRemarks } from "./openremarks.tsx";
import { useCalmSession } from "../settled.ts";
import { findingKey, LEVEL_WORDS, readFindings } from "../words.ts";

/** How long a mend may take that is asked for beside the findings, seconds. */
const MEND_S = 5;

const NONE: ReadonlyMap<string, string> = new Map();

/** What the move changes for the worse, by finding; nothing is always the same nothing, so that taking in hand is no change yet. */
function changesOf({ preview }: SessionState): SessionState["preview"] {
  const difference = preview?.difference;
  return !difference || difference.gained.length + difference.worse.length === 0 ? null : preview;
}

function changeWords(preview: SessionState["preview"]): ReadonlyMap<string, string> {
  if (!preview) return NONE;
  const { gained, worse } = preview.difference;
  return new Map([
    ...gained.map((finding) => [findingKey(finding), "new"] as const),
    ...worse.map((shift) => [findingKey(shift.finding), worseWords(shift)] as const),
  ]);
}

/** What breaks a rule or comes close to it, a line a rule: breaches first, then must-do tasks left out, then tight ones. */
export const Findings = memo(function Findings() {
  const [verdict, plan, changed] = useCalmSession(
    (state) => [shownVerdict(state), shownPlan(state), changesOf(state)] as const,
  );
  const inHand = useView((state) => state.inHand !== null);
  const inOrder = useMemo(() => readFindings(verdict.findings), [verdict]);
  const changes = useMemo(() => changeWords(changed), [changed]);
  const rules = useMemo(() => byRule(inOrder), [inOrder]);

  return (
    <section className="findings" aria-label="Findings">
      <header className="part-head">
        <h2>Findings</h2>
        <span className="note">
          {verdict.placed > 0 || inOrder.length > 0 ? countWords(inOrder) : "nothing to judge yet"}
          {inHand ? ", in hand" : ""}
        </span>
        {!inHand && <MendIt />}
      </header>
      <OpenRemarks />
      {inOrder.length === 0 && (
        <p className="empty">
          {verdict.placed === 0
            ? "Nothing is on the day line yet."
            : "No rule is broken and none is kept by little."}
        </p>
      )}
      <ol className="finding-list">
        {rules.map((findings) => (
          <RuleRow key={ruleKey(findings[0])} plan={plan} findings={findings} changes={changes} />
        ))}
      </ol>
      <BelowWish />
      <DayFigures />
    </section>
  );
});

/** The way to repair a broken day, where it is read that it is broken. */
function MendIt() {
  const { session } = useApp();
  const broken = useSession((state) => state.verdict.score.breaches > 0 && !(state.run?.running ?? false));
  if (!broken) return null;
  return (
    <button
      type="button"
      className="mend-it"
      aria-label="Mend the day"
      title="Repair the broken day with the fewest changes"
      onClick={() => void session.mend({ seed: 1, seconds: MEND_S })}
    >
      Mend
    </button>
  );
}

/** `no breach, 2 open, 7 tight`. */
function countWords(findings: readonly Finding[]): string {
  const count = (level: Finding["level"]): number => findings.filter((one) => one.level === level).length;
  const [breaches, open, tight] = [count("breach"), count("open"), count("tight")];
  return [
    breaches === 0 ? "no breach" : counted(breaches, "breach", "breaches"),
    ...(open === 0 ? [] : [`${open} open`]),
    `${tight} tight`,
  ].join(", ");
}

/** Findings of one rule and level. */
type Together = readonly [Finding, ...Finding[]];

function ruleKey({ rule, level }: Finding): string {
  return `${level} ${rule}`;
}

/** Findings of one rule and level together, in the order in which the first of each is read. */
function byRule(inOrder: readonly Finding[]): readonly Together[] {
  const rules = new Map<string, [Finding, ...Finding[]]>();
  for (const finding of inOrder) {
    const known = rules.get(ruleKey(finding));
    if (known) known.push(finding);
    else rules.set(ruleKey(finding), [finding]);
  }
  return [...rules.values()];
}

/** Most names that a line says of what its findings are about. */
const MOST_NAMES = 3;

/** `EVA 2 · EV1 and EV2 · 17:11`: whom the findings of a rule are about and when the first of them holds. */
function aboutWords(plan: Plan, findings: readonly Finding[]): string {
  const ids = (kind: Finding["subjects"][number]["kind"]): readonly string[] => [
    ...new Set(
      findings.flatMap(({ subjects }) => subjects.filter((one) => one.kind === kind).map(({ id }) => id)),
    ),
  ];
  const named = (names: readonly string[]): string =>
    names.length > MOST_NAMES
      ? `${names[0] ?? ""} and ${counted(names.length - 1, "more", "more")}`
      : listed(names);
  const evas = named(ids("eva").map((id) => evaName(plan, id)));
  const crew = named(ids("crew").map((id) => crewName(plan, id)));
  const tasks = named(ids("task").map((id) => numberedTask(plan, id)));
  const first = findings.find(({ span }) => span !== null)?.span ?? null;
  return [evas, crew, tasks, first === null ? "" : clock(first.startS)].filter(Boolean).join(" · ");
}

/** A rule: how many findings, about whom, and what is left to spare or over. A press goes to the first and unfolds all. */
function RuleRow(props: {
  readonly plan: Plan;
  readonly findings: Together;
  readonly changes: ReadonlyMap<string, string>;
}) {
  const { plan, findings, changes } = props;
  const { session, view } = useApp();
  const { windows } = useDay();
  const chosenKey = useView(({ chosen }) => (chosen === null ? null : findingKey(chosen)));
  const [folded, fold] = useState(true);
  const [first] = findings;
  const within = findings.some((one) => findingKey(one) === chosenKey);
  const open = !folded || within;
  const change = findings.map((one) => changes.get(findingKey(one))).find(Boolean) ?? null;
  const press = (): void => {
    fold(open);
    if (!open) goToFinding(session, view, windows, first);
    else if (within) view.setState({ chosen: null });
  };
  return (
    <li>
      <button
        type="button"
        className={`rule-row ${first.level}${change !== null ? " fresh" : ""}`}
        aria-expanded={open}
        onClick={press}
      >
        <RuleWords plan={plan} findings={findings} change={change} />
      </button>
      {open && (
        <ol className="rule-findings" aria-label={FLIGHT_RULES[first.rule].words}>
          {findings.map((finding, i) => (
            <FindingRow
              // Numbers change while a task is in hand; the row stays the same row.
              key={`${findingKey(finding)}${i > 0 && findingKey(findings[i - 1] ?? finding) === findingKey(finding) ? i : ""}`}
              finding={finding}
              words={findingWords(plan, finding)}
              change={changes.get(findingKey(finding)) ?? null}
              chosen={findingKey(finding) === chosenKey}
            />
          ))}
        </ol>
      )}
    </li>
  );
}

/** A rule in one line. */
function RuleWords(props: {
  readonly plan: Plan;
  readonly findings: Together;
  readonly change: string | null;
}) {
  const { plan, findings, change } = props;
  const [{ rule, level }] = findings;
  const spare = spareWords(findings);
  const levelWords = LEVEL_WORDS[level].toLowerCase();
  return (
    <>
      <span className={`rule-mark ${level}`}>
        {findings.length}
        <span className="unseen"> {levelWords}</span>
      </span>
      <span className="rule-words">
        <b>{FLIGHT_RULES[rule].words}</b> {change !== null && <span className="finding-new">{change}</span>}
      </span>
      <span className="rule-about">{aboutWords(plan, findings)}</span>
      <span className="rule-figure">
        {spare ? (
          <>
            <b>{spare.amount}</b> <span>{spare.says}</span>
          </>
        ) : (
          <span>{levelWords}</span>
        )}
      </span>
    </>
  );
}

/** What the day holds in all, beside the score. */
const DayFigures = memo(function DayFigures() {
  const [verdict] = useCalmSession((state) => [shownVerdict(state)] as const);
  const tasks = useSession((state) => shownPlan(state).tasks.length);
  // What the packer proved, while its schedule is the plan's.
  const packed = useSession(currentPack);
  const proved = packed && boundWords(packed.verdict.score.worth, packed.bound);
  return (
    <div className="day-figures">
      <span>
        <b>
          {verdict.mustPlaced} of {verdict.mustTotal}
        </b>{" "}
        must-do
      </span>
      <span>
        {verdict.placed} of {tasks} tasks
      </span>
      <span>
        <From of="walked, all crew" request={{ what: "walked" }}>
          {metres(verdict.score.walkM, "up")}
        </From>{" "}
        walked
      </span>
      {proved !== null && (
        <span>
          worth <b>{proved}</b>
        </span>
      )}
    </div>
  );
});

interface RowProps {
  readonly finding: Finding;
  /** Its sentence, with the numbers of tasks. */
  readonly words: string;
  /** What the move in hand does to it for the worse. */
  readonly change: string | null;
  readonly chosen: boolean;
}

const FindingRow = memo(function FindingRow(props: RowProps) {
  const { finding } = props;
  const { session, view } = useApp();
  const { windows } = useDay();
  const go = (): void => goToFinding(session, view, windows, finding);
  return (
    <li>
      <button
        type="button"
        className={`finding ${finding.level}${props.change !== null ? " fresh" : ""}`}
        aria-pressed={props.chosen}
        onClick={go}
      >
        {finding.span && <span className="finding-when">{clock(finding.span.startS)}</span>}
        {props.change !== null && <span className="finding-new">{props.change}</span>}
        <span className="finding-sentence">
          <Prose words={props.words} />
        </span>
      </button>
      <div className="finding-ask">
        <From
          of={FLIGHT_RULES[finding.rule].words}
          request={{ what: "finding", rule: finding.rule, subjects: finding.subjects }}
        />
        {finding.level !== "tight" && (
          <button
            type="button"
            className="quiet card-ask"
            aria-label={`Why not? ${finding.sentence}`}
            onClick={() =>
              void session.askWhy(leftOut(session.state.getState().plan, finding), {
                finding: finding.sentence,
              })
            }
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
    a.words === b.words &&
    a.finding.span?.startS === b.finding.span?.startS &&
    findingKey(a.finding) === findingKey(b.finding)
  );
}

/** The task that a finding says is left out, of a group the first on the bench; null for a breach, which is about the day. */
function leftOut({ groups, schedule }: Plan, finding: Finding): string | null {
  const [about] = finding.subjects;
  if (finding.level !== "open" || !about) return null;
  if (about.kind === "task") return about.id;
  const placed = new Set(schedule.placements.map(({ task }) => task));
  return groups.find(({ id }) => id === about.id)?.tasks.find((task) => !placed.has(task)) ?? null;
}
