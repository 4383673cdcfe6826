import { useMemo } from "react";
import type { Placement, Plan } from "../../plan/index.ts";
import {
  clockText,
  counted,
  crewName,
  type Dial,
  evaName,
  findingWords,
  lasting,
  numberedTask,
} from "../../words/index.ts";
import { useDial } from "../dial.ts";
import { easedWords, subtract, worseWords } from "../../session/index.ts";
import { findingKey, LEVEL_WORDS } from "../words.ts";
import type { Compared } from "./days.ts";
import { type Difference, type DifferenceGroup, differencesOf, grouped } from "./differences.ts";

/** What one day does otherwise than another, task by task. */
export function DifferenceList({ from, to }: { readonly from: Compared; readonly to: Compared }) {
  const dial = useDial();
  const list = useMemo(() => differencesOf(to.plan, from.schedule, to.schedule), [from, to]);
  if (list.length === 0)
    return (
      <>
        <p className="empty">Every task is where it is on the day as it stands.</p>
        <FindingChanges from={from} to={to} />
      </>
    );
  const dropped = list.filter((one) => one.to === null).length;
  const added = list.filter((one) => one.from === null).length;
  return (
    <div role="region" aria-label={`Differences of ${to.name}`}>
      <p className="note">
        {counted(dropped, "task")} dropped, {added} added, {list.length - dropped - added} moved.
      </p>
      <table className="variants-differences">
        <caption className="unseen">Tasks that differ</caption>
        <thead>
          <tr>
            <th scope="col">Change</th>
            <th scope="col">Task</th>
            <th scope="col">As it stands</th>
            <th scope="col">In the variant</th>
          </tr>
        </thead>
        <tbody>
          {grouped(list).map((group) =>
            group.length === 1 ? (
              <Row key={group[0].task} one={group[0]} plan={to.plan} dial={dial} />
            ) : (
              <Together key={group[0].task} group={group} plan={to.plan} dial={dial} />
            ),
          )}
        </tbody>
      </table>
      <FindingChanges from={from} to={to} />
    </div>
  );
}

/** What the judge finds of one day and not of the other, and what is worse or better and by how much: the worst first. */
function FindingChanges({ from, to }: { readonly from: Compared; readonly to: Compared }) {
  const change = useMemo(() => subtract(from.verdict, to.verdict), [from, to]);
  const lines = [
    ...change.gained.map((finding) => ({ finding, words: "new" })),
    ...change.worse.map((shift) => ({ finding: shift.finding, words: worseWords(shift) })),
    ...change.eased.map((shift) => ({ finding: shift.finding, words: easedWords(shift) })),
    ...change.lost.map((finding) => ({ finding, words: "gone" })),
  ];
  if (lines.length === 0) return <p className="note">The same findings, by the same amounts.</p>;
  return (
    <ul className="finding-changes" aria-label="Findings that differ">
      {lines.map(({ finding, words }) => (
        <li key={findingKey(finding)}>
          <span className={words === "gone" ? "note" : `state ${finding.level}`}>
            {LEVEL_WORDS[finding.level]}, {words}
          </span>{" "}
          {findingWords(to.plan, finding)}
        </li>
      ))}
    </ul>
  );
}

function Row(props: { readonly one: Difference; readonly plan: Plan; readonly dial: Dial }) {
  const { one, plan, dial } = props;
  return (
    <tr className={kindOf(one)}>
      <td>{changeWords(one)}</td>
      <th scope="row">
        {numberedTask(plan, one.task)}{" "}
        <span className="note">{one.must ? "must-do" : `worth ${one.worth}`}</span>
      </th>
      <td>{placementWords(plan, dial, one.from)}</td>
      <td>{placementWords(plan, dial, one.to)}</td>
    </tr>
  );
}

/** Tasks that move by the same time, in one line; each of them is folded below. */
function Together(props: { readonly group: DifferenceGroup; readonly plan: Plan; readonly dial: Dial }) {
  const { group, plan, dial } = props;
  const [first] = group;
  return (
    <tr className="moved">
      <td>{changeWords(first)}</td>
      <th scope="row">
        {group.length} tasks of {evaName(plan, first.to?.eva ?? null)} together
      </th>
      <td colSpan={2}>
        <details>
          <summary>
            {numberedTask(plan, first.task)} to {numberedTask(plan, group.at(-1)!.task)}
          </summary>
          <ul>
            {group.map((one) => (
              <li key={one.task}>
                {numberedTask(plan, one.task)}: {placementWords(plan, dial, one.from)} to{" "}
                {placementWords(plan, dial, one.to)}
              </li>
            ))}
          </ul>
        </details>
      </td>
    </tr>
  );
}

function kindOf({ from, to }: Difference): "dropped" | "added" | "moved" {
  return to === null ? "dropped" : from === null ? "added" : "moved";
}

function changeWords(one: Difference): string {
  const kind = kindOf(one);
  if (kind !== "moved") return kind === "dropped" ? "Dropped" : "Added";
  if (one.laterS === 0) return "Other crew or EVA";
  return `${lasting(Math.abs(one.laterS), "up")} ${one.laterS > 0 ? "later" : "earlier"}`;
}

function placementWords(plan: Plan, dial: Dial, at: Placement | null): string {
  if (at === null) return "on the bench";
  const crew = at.crew.map((id) => crewName(plan, id)).join(", ");
  return [clockText(dial, at.startS, at.eva), evaName(plan, at.eva), crew].filter(Boolean).join(" · ");
}
