import { crewName, listed } from "../../words/index.ts";
import { about, finding, type JudgeRule } from "../finding.ts";

/** link-crew: both placed, by the same crew members, or with none in common. */
export const linkCrew: JudgeRule = ({ prepared, byTask }) =>
  prepared.plan.links.flatMap((link) => {
    if (link.type !== "crew") return [];
    const [first, second] = [byTask.get(link.tasks[0]), byTask.get(link.tasks[1])];
    if (!first || !second) return [];
    const one = new Set(first.placement.crew);
    const other = new Set(second.placement.crew);
    const common = [...one].filter((member) => other.has(member)).sort();
    const holds =
      link.crew === "same" ? common.length === one.size && one.size === other.size : common.length === 0;
    if (holds) return [];
    const who = (members: Iterable<string>): string =>
      listed([...members].sort().map((id) => crewName(prepared.plan, id))) || "nobody";
    const sentence =
      link.crew === "same"
        ? `${first.task.name} is done by ${who(one)} and ${second.task.name} by ${who(other)}; they must be the same.`
        : `${who(common)} ${common.length === 1 ? "does" : "do"} both ${first.task.name} and ${second.task.name}; they must share nobody.`;
    return [
      finding(
        "link-crew",
        "breach",
        [about("link", link.id), about("task", first.task.id), about("task", second.task.id)],
        { span: second.span, sentence },
      ),
    ];
  });
