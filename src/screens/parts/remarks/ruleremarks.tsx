import { useState } from "react";
import type { About } from "../../../plan/index.ts";
import { keysOf } from "../../../kernel/index.ts";
import { RULE_NUMBERS } from "../../../rules/index.ts";
import { aboutWords, remarkedAt, signoffWords } from "../../../words/index.ts";
import { useSession } from "../../context.ts";
import { Remarks } from "./remarks.tsx";

const RULES = keysOf(RULE_NUMBERS).map((id): { readonly id: string; readonly words: string } => ({
  id,
  words: RULE_NUMBERS[id].name,
}));

/** Comments and sign-offs of the flight rules: those of which something was said, and one that is chosen. */
export function RuleRemarks() {
  const comments = useSession((state) => state.plan.comments);
  const signoffs = useSession((state) => state.plan.signoffs);
  const [chosen, choose] = useState("");
  const spoken = new Set(
    [...comments, ...signoffs].flatMap(({ about }) => (about.kind === "rule" ? [about.id] : [])),
  );
  const shown = RULES.filter(({ id }) => spoken.has(id) || id === chosen);
  const about = (id: string): About => ({ kind: "rule", id });
  return (
    <section className="remarks-rules" aria-label="Comments and sign-off of rules">
      {shown.map(({ id, words }) => (
        <div key={id}>
          <h3>{words}</h3>
          <Remarks about={about(id)} name={words} />
        </div>
      ))}
      <label>
        Comment on or sign off a rule
        <select value={chosen} onChange={(event) => choose(event.target.value)}>
          <option value="">None chosen</option>
          {RULES.map(({ id, words }) => (
            <option key={id} value={id}>
              {words}
            </option>
          ))}
        </select>
      </label>
      <RemarksOnGone />
    </section>
  );
}

/** What was said of tasks that are not in the plan any more: it is kept, and said. */
function RemarksOnGone() {
  const plan = useSession((state) => state.plan);
  const isGone = ({ about }: { readonly about: About }): boolean =>
    about.kind === "task" && !plan.tasks.some(({ id }) => id === about.id);
  const comments = plan.comments.filter(isGone);
  const signoffs = plan.signoffs.filter(isGone);
  if (comments.length + signoffs.length === 0) return null;
  return (
    <section aria-label="Said of what is gone">
      <h3>Said of what is gone</h3>
      <ul>
        {comments.map(({ id, about, by, atUtc, text }) => (
          <li key={id}>
            {aboutWords(plan, about)}: {text} ({by}, {remarkedAt(atUtc)})
          </li>
        ))}
        {signoffs.map((one) => (
          <li key={one.id}>
            {aboutWords(plan, one.about)}: {signoffWords(plan, one)}
          </li>
        ))}
      </ul>
    </section>
  );
}
