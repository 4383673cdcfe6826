import "../theme/why.css";
import { useEffect, useRef } from "react";
import type { WhyReport } from "../../answers/index.ts";
import { type WhyQuestion, type SessionState, whyIsStale } from "../../session/index.ts";
import { counted, numberedSentence, numberedTask } from "../../words/index.ts";
import { useApp, useSession } from "../context.ts";
import { Conflict, FEW, Guarded } from "./conflict.tsx";
import { Relaxations } from "./relaxations.tsx";

/** A longer search, for days on which the short one does not get through, seconds. */
const LONG_S = 20;
/** The open question why: what stands against it, and what could be given up. Nothing when none is open. */
export function WhyPanel() {
  const why = useSession((state) => state.why);
  return why ? <Answer key={why.task ?? "the day"} why={why} /> : null;
}

function Answer({ why }: { readonly why: WhyQuestion }) {
  const { session } = useApp();
  const plan = useSession((state) => state.plan);
  const stale = useSession(whyIsStale);
  const heading = useRef<HTMLHeadingElement>(null);
  const task = why.plan.tasks.find((one) => one.id === why.task);
  const { report } = why;
  useEffect(() => {
    const opener = document.activeElement;
    heading.current?.focus();
    return () => {
      if (opener instanceof HTMLElement && opener.isConnected) opener.focus();
    };
  }, []);
  const panel = useRef<HTMLElement>(null);
  const inside = useRef(false);
  const { running } = why;
  useEffect(() => {
    // A button that is gone with the search takes the keyboard's place with it.
    if (inside.current && !panel.current?.contains(document.activeElement)) heading.current?.focus();
  }, [running, stale]);
  useSpoken(why);

  return (
    <aside
      ref={panel}
      className="why beside"
      aria-label="Why not"
      onFocus={() => (inside.current = true)}
      onBlur={(event) => {
        // Without a next place the one that had the keyboard was taken away.
        if (event.relatedTarget) inside.current = event.currentTarget.contains(event.relatedTarget);
      }}
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.preventDefault();
        event.stopPropagation();
        session.closeWhy();
      }}
    >
      <header className="beside-head">
        <div>
          <p className="note">{task ? "Why is it not on the day?" : "Why is a rule broken?"}</p>
          <h2 ref={heading} tabIndex={-1}>
            {task ? numberedTask(why.plan, task.id) : "The day as it stands"}
          </h2>
        </div>
        <Closer />
      </header>
      {why.finding !== null && (
        <p className="why-asked">Asked at: {numberedSentence(why.plan, why.finding)}</p>
      )}
      <How why={why} stale={stale} />
      <div className="why-body beside-body">
        {report && <Found why={why} report={report} plan={plan} stale={stale} />}
      </div>
    </aside>
  );
}

function Closer() {
  const { session } = useApp();
  const close = (): void => session.closeWhy();
  return (
    <button type="button" className="quiet cross" aria-label="Close the answer" onClick={close}>
      ×
    </button>
  );
}

/** How far the search is, and what can be done about it. */
function How({ why, stale }: { readonly why: WhyQuestion; readonly stale: boolean }) {
  const { session } = useApp();
  const { report, running } = why;
  const tried = report?.tried ?? 0;
  const offers = report?.offers ?? 0;
  const short = !running && (report === null || report.stopped !== "done");
  return (
    <div className="why-how">
      {running && (
        <>
          <progress
            value={offers === 0 ? undefined : tried}
            max={Math.max(1, offers)}
            aria-label="Changes tried"
          />
          <span className="note">{offers === 0 ? "Looking…" : `${tried} of ${offers} changes tried`}</span>
          <button type="button" onClick={() => session.stopWhy()}>
            Stop
          </button>
        </>
      )}
      {!running && stale && (
        <p className="state tight">
          The day has changed since: this was said of the day before.
          <button type="button" onClick={() => void session.askAgain()}>
            Ask again
          </button>
        </p>
      )}
      {!running && !stale && (
        <>
          <span className="note">{ended(why)}</span>
          {short && (
            <button type="button" onClick={() => void session.askAgain(LONG_S)}>
              Look longer
            </button>
          )}
        </>
      )}
    </div>
  );
}

function ended({ end, report, message }: Pick<WhyQuestion, "end" | "report" | "message">): string {
  if (end === "failed") return `It could not be found out: ${message ?? "unknown"}.`;
  if (!report) return "Stopped before anything was found.";
  const share = `${report.tried} of ${report.offers} changes tried`;
  if (report.offers === 0)
    return report.stopped === "done" ? "Nothing had to be tried." : "Stopped before any change was tried.";
  return report.stopped === "done"
    ? `All ${counted(report.offers, "change")} tried.`
    : `${share}, then stopped.`;
}

function Found(props: {
  readonly why: WhyQuestion;
  readonly report: WhyReport;
  readonly plan: SessionState["plan"];
  readonly stale: boolean;
}) {
  const { why, report, stale } = props;
  const { conflict } = report;
  // On a full day the list is long: what could give is then read first.
  const long = conflict !== null && conflict.causes.length > FEW;
  return (
    <>
      {report.task === null && why.task !== null && (
        <p className="state breach">
          The day breaks a rule as it stands. That comes first, so the answer is about the day.
        </p>
      )}
      <InShort why={why} />
      {!conflict && <p className="why-sentence">{known(why, report)}</p>}
      {conflict && !long && <Conflict plan={why.plan} conflict={conflict} more={report.sentence} />}
      <Relaxations why={why} report={report} stale={stale} />
      {conflict && long && <Conflict plan={why.plan} conflict={conflict} more={report.sentence} />}
      {report.guarded.length > 0 && <Guarded plan={why.plan} sentences={report.guarded} />}
    </>
  );
}

/** What the bench says of the task, with its figures: how far, how long, against what. Nothing of a day that is another one by now. */
function InShort({ why: { task, plan } }: { readonly why: WhyQuestion }) {
  const says = useSession((state) =>
    task === null || state.plan !== plan ? null : (state.benchReasons.get(task)?.sentence ?? null),
  );
  return says !== null && <p className="why-sentence">{numberedSentence(plan, says)}</p>;
}

/** What is known where there is no conflict to show. */
function known(why: WhyQuestion, { state, sentence }: WhyReport): string {
  if (sentence !== "") return numberedSentence(why.plan, sentence);
  if (state !== "looking") return "";
  return why.running
    ? "What stands against it is being looked for."
    : "What stands against it was not found out in this time.";
}

/** Says the outcome once, when the search has ended. */
function useSpoken({ running, report, end, message }: WhyQuestion): void {
  const { view } = useApp();
  useEffect(() => {
    if (running || !report || end !== "answered") return;
    const ways = report.relaxations.length;
    const none = report.tried === 0 ? "" : "No change that was tried makes it fit.";
    const words = ways === 0 ? none : `${counted(ways, "way")} to make it fit.`;
    view.setState({
      spoken: [report.sentence, words || ended({ end, report, message })]
        .filter((one) => one !== "")
        .join(" "),
    });
  }, [running, report, end, message, view]);
}
