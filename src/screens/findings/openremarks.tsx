import { useMemo } from "react";
import { type About, type Plan, signoffState } from "../../plan/index.ts";
import { aboutWords, counted, signoffWords } from "../../words/index.ts";
import { useApp, useSession } from "../context.ts";
import { useDay } from "../day/context.ts";

/** Something that somebody has to look at again: a comment that is not settled, or a sign-off of what was changed since. */
interface OpenRemark {
  readonly id: string;
  readonly about: About;
  readonly words: string;
  readonly undone: boolean;
}

function openIn(plan: Plan): readonly OpenRemark[] {
  return [
    ...plan.comments
      .filter(({ settled }) => !settled)
      .map(({ id, about, by, text }) => ({ id, about, words: `${by}: ${text}`, undone: false })),
    ...plan.signoffs
      .filter((one) => signoffState(plan, one) !== "holds")
      .map((one) => ({ id: one.id, about: one.about, words: signoffWords(plan, one), undone: true })),
  ];
}

/** How many comments are open and how many sign-offs a later change has undone; opened, each of them, and the way to it. Nothing where there is none. */
export function OpenRemarks() {
  const plan = useSession((state) => state.plan);
  const open = useMemo(() => openIn(plan), [plan]);
  if (open.length === 0) return null;
  const undone = open.filter((one) => one.undone).length;
  const words = [
    ...(open.length > undone ? [`${counted(open.length - undone, "comment")} open`] : []),
    ...(undone > 0 ? [`${counted(undone, "sign-off")} undone by a change`] : []),
  ].join(", ");
  return (
    <details className="spoils open-said">
      <summary className={undone > 0 ? "state tight" : "note"}>{words}</summary>
      <ul className="finding-list" aria-label="Open comments and undone sign-offs">
        {open.map((one) => (
          <OpenRow key={one.id} plan={plan} one={one} />
        ))}
      </ul>
    </details>
  );
}

function OpenRow({ plan, one }: { readonly plan: Plan; readonly one: OpenRemark }) {
  const { session, view } = useApp();
  const { windows } = useDay();
  const { about, words, undone } = one;
  const go = (): void => {
    view.setState({ spoken: words });
    if (about.kind === "rule") return view.setState({ screen: "setup" });
    if (about.kind === "page") return view.setState({ screen: "paper" });
    if (!plan.tasks.some(({ id }) => id === about.id)) return view.setState({ screen: "setup" });
    session.select([about.id]);
    const placement = plan.schedule.placements.find(({ task }) => task === about.id);
    if (placement) windows.reveal({ startS: placement.startS, endS: placement.startS + 600 });
  };
  return (
    <li>
      <button type="button" className="rule-row" title={words} onClick={go}>
        <span className={`rule-mark ${undone ? "tight" : "open"}`}>{undone ? "!" : "?"}</span>
        <span className="rule-words">
          <b>{aboutWords(plan, about)}</b>
        </span>
        <span className="rule-about">{words}</span>
      </button>
    </li>
  );
}
