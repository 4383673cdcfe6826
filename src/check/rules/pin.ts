import { crewName, evaName, listed, met } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";

/** pin: a placed task keeps its pinned start, EVA and crew. A pinned task may still be left on the bench. */
export const pin: JudgeRule = ({ prepared, placed }) =>
  placed.flatMap(({ task, placement, span }) => {
    if (!task.pin) return [];
    const who = (crew: readonly string[]): string =>
      listed([...crew].sort().map((id) => crewName(prepared.plan, id))) || "nobody";
    const on = (eva: string | null): string => (eva === null ? "no EVA" : evaName(prepared.plan, eva));
    const moved: string[] = [];
    const { startS, eva, crew } = task.pin;
    if (startS !== undefined && startS !== placement.startS) {
      moved.push(`to start at ${met(startS)} and starts at ${met(placement.startS)}`);
    }
    if (eva !== undefined && eva !== placement.eva)
      moved.push(`to ${on(eva)} and is on ${on(placement.eva)}`);
    if (crew !== undefined && !sameMembers(crew, placement.crew)) {
      moved.push(`to ${who(crew)} and is with ${who(placement.crew)}`);
    }
    if (moved.length === 0) return [];
    const isStart = startS !== undefined && startS !== placement.startS;
    return [
      finding("pin", "breach", [about("task", task.id)], {
        span,
        need: isStart ? startS : null,
        have: isStart ? placement.startS : null,
        unit: isStart ? "s" : "none",
        sentence: `${task.name} is pinned ${listed(moved)}.`,
      }),
    ];
  });

function sameMembers(a: readonly string[], b: readonly string[]): boolean {
  const one = new Set(a);
  const other = new Set(b);
  return one.size === other.size && [...one].every((member) => other.has(member));
}
