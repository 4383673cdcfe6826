import { type Plan, type Signoff, signoffState } from "../../plan/index.ts";
import { aboutWords, taskNumber } from "../../words/index.ts";
import type { Fact } from "./forms.ts";

/** What sign-offs of cuff checklists are about. */
const PAGE = "cuff";

/**
 * Under which names the booklet, the rules that it was judged by and its own tasks were signed, and what of them is not signed or was changed since.
 * Nothing where nobody has signed anything of the plan: a team that signs wants to see what is not.
 */
export function signedFacts(plan: Plan, tasks: readonly string[]): Fact[] {
  if (plan.signoffs.length === 0) return [];
  const about = ({ about: { kind, id } }: Signoff): boolean =>
    kind === "rule" || (kind === "page" ? id === PAGE : tasks.includes(id));
  const own = plan.signoffs.filter(about);
  const current = own.filter((one) => signoffState(plan, one) === "holds");
  const signed = new Set(current.map(keyOf));
  const names = [...new Set(current.map(({ by }) => by))];
  const by = names.map(
    (name) =>
      `${wordsOf(
        plan,
        current.filter((one) => one.by === name),
      )} by ${name}`,
  );
  const changed = own.filter((one) => !signed.has(keyOf(one)));
  const open = [
    ...(signed.has(`page ${PAGE}`) ? [] : ["booklet"]),
    // Where no task is signed, tasks are not what this team signs.
    ...(own.some(({ about: { kind } }) => kind === "task")
      ? tasks.filter((id) => !signed.has(`task ${id}`)).map((id) => taskNumber(plan, id))
      : []),
  ];
  return [
    ...(by.length === 0 ? [] : [["SIGNED", by.join("; ")] as const]),
    ...(open.length === 0 ? [] : [["NOT SIGNED", open.join(" ")] as const]),
    ...(changed.length === 0 ? [] : [["CHANGED SINCE SIGNED", wordsOf(plan, changed)] as const]),
  ];
}

function keyOf({ about }: Signoff): string {
  return `${about.kind} ${about.id}`;
}

/** What they are about, each once: the booklet, rules by name, tasks by number. */
function wordsOf(plan: Plan, signoffs: readonly Signoff[]): string {
  const words = signoffs.map(({ about }) =>
    about.kind === "page"
      ? "booklet"
      : about.kind === "rule"
        ? aboutWords(plan, about)
        : taskNumber(plan, about.id),
  );
  return [...new Set(words)].join(" ");
}
