import type { Making } from "../viewstate.ts";

/** Says what is being worked out, how far that is, and offers to leave it; `over` a plan that is open, only when it takes long. */
export function MakingReady({ title, progress, stop, over }: Making & { readonly over?: boolean }) {
  return (
    <div className={over ? "opening-making over" : "opening-making"} role="status">
      <span>
        Not checked yet: the ways of {title} are being worked out
        {progress && progress.total > 0 ? `, ${progress.done} of ${progress.total} places` : ""}.
      </span>
      <button type="button" className="quiet" onClick={stop}>
        {over ? "Leave the plan as it is" : "Do not open it"}
      </button>
    </div>
  );
}
