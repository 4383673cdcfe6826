import { useEffect, useRef } from "react";
import { counted } from "../../words/index.ts";
import { useApp, useSession, useView } from "../context.ts";

/** What a screen reader is told while things move. */
export function Spoken() {
  const spoken = useView((state) => state.spoken);
  return (
    <div className="unseen" role="status" aria-live="polite">
      {spoken}
    </div>
  );
}

/** Notices at the lower edge until they are dismissed. */
export function Notices() {
  const { session } = useApp();
  const notices = useSession((state) => state.notices);
  const ref = useRef<HTMLElement>(null);
  const dismiss = (id: string, place: number): void => {
    // The keyboard goes on at the next notice, or where the screens are chosen.
    const buttons = [...(ref.current?.querySelectorAll("button") ?? [])];
    const next = buttons[place + 1] ?? buttons[place - 1];
    const home = document.querySelector<HTMLElement>('.header [aria-current="page"]');
    if (document.activeElement === buttons[place]) (next ?? home)?.focus();
    session.dismissNotice(id);
  };
  if (notices.length === 0) return null;
  return (
    <section ref={ref} className="shell-notices" aria-label="Notices">
      {notices.slice(-4).map((notice, i) => (
        <div
          key={notice.id}
          className={`shell-notice ${notice.tone}`}
          role={notice.tone === "problem" ? "alert" : "status"}
        >
          <span>
            {notice.tone === "problem" && <b>Problem. </b>}
            {notice.text}
          </span>
          <button type="button" className="quiet" onClick={() => dismiss(notice.id, i)}>
            Dismiss
          </button>
        </div>
      ))}
    </section>
  );
}

/** A word on a newer version of the program that is waiting to be started. */
export function NewerVersion() {
  const { view } = useApp();
  const start = useView((state) => state.newerVersion);
  if (!start) return null;
  return (
    <section className="shell-notices shell-newer" aria-label="Newer version">
      <div className="shell-notice news" role="status">
        <span>A newer version of Lopeline is in this browser. The plan is saved before it starts.</span>
        <button type="button" className="quiet" onClick={start}>
          Start it
        </button>
        <button type="button" className="quiet" onClick={() => view.setState({ newerVersion: null })}>
          Later
        </button>
      </div>
    </section>
  );
}

/** A file that was refused, with every fault by path. */
export function Refused() {
  const { session } = useApp();
  const refusal = useSession((state) => state.refusal);
  const ref = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (refusal) ref.current?.showModal();
  }, [refusal]);
  if (!refusal) return null;
  const shown = refusal.faults.slice(0, 200);
  return (
    <dialog
      ref={ref}
      className="shell-refused"
      aria-labelledby="refused-title"
      onClose={() => session.dismissRefusal()}
    >
      <h2 id="refused-title">{refusal.name} was not opened</h2>
      <p>{counted(refusal.faults.length, "fault")}. The open plan is as it was.</p>
      {refusal.faults.some(({ path }) => path === "format") && (
        <p className="note">
          Nothing in it says that it is a plan. A plan is a file that Save to file has written; a list of
          tasks comes in by Import a list.
        </p>
      )}
      <ul tabIndex={0} aria-label="Faults">
        {shown.map((fault, i) => (
          <li key={i}>
            {fault.path !== "" && <code>{fault.path}</code>} {fault.message}
          </li>
        ))}
        {refusal.faults.length > shown.length && <li>and {refusal.faults.length - shown.length} more</li>}
      </ul>
      <button type="button" className="primary" onClick={() => ref.current?.close()}>
        Close
      </button>
    </dialog>
  );
}
