import "./remarks.css";
import { type ReactNode, useState } from "react";
import { type About, type Comment, type Signoff, signoffState } from "../../../plan/index.ts";
import { counted, remarkedAt, signoffWords } from "../../../words/index.ts";
import { useApp, useSession } from "../../context.ts";
import { AuthorField } from "./author.tsx";

/** What people say of a task, a group of the rules or a page, and who has signed it. One closed line until it is opened. */
export function Remarks({ about, name }: { readonly about: About; readonly name: string }) {
  const plan = useSession((state) => state.plan);
  const author = useSession((state) => state.author);
  const { session } = useApp();
  const own = (one: { readonly about: About }): boolean =>
    one.about.kind === about.kind && one.about.id === about.id;
  const comments = plan.comments.filter(own);
  const signoffs = plan.signoffs.filter(own);
  const unnamed = author === "" ? "Give your name first." : undefined;
  return (
    <details className="remarks">
      <summary>
        Comments and sign-off<span className="unseen"> of {name}</span>
        <span className="note">
          {" "}
          {countWords(comments, signoffs, (one) => signoffState(plan, one) !== "holds")}
        </span>
      </summary>
      <div className="remarks-body">
        <ul aria-label={`Comments on ${name}`} hidden={comments.length === 0}>
          {comments.map((one) => (
            <CommentLine key={one.id} comment={one} />
          ))}
        </ul>
        <ul aria-label={`Sign-offs of ${name}`} hidden={signoffs.length === 0}>
          {signoffs.map((one) => (
            <li key={one.id}>
              <span className={signoffState(plan, one) === "holds" ? undefined : "state tight"}>
                {signoffWords(plan, one)}
              </span>
              <button type="button" className="quiet" onClick={() => session.withdraw(one.id)}>
                Withdraw<span className="unseen"> the sign-off by {one.by}</span>
              </button>
            </li>
          ))}
        </ul>
        <AuthorField />
        <NewComment about={about} disabledReason={unnamed}>
          <button
            type="button"
            aria-disabled={unnamed !== undefined}
            title={unnamed}
            onClick={() => unnamed === undefined && session.sign(about)}
          >
            Sign off as it is now<span className="unseen">: {name}</span>
          </button>
        </NewComment>
      </div>
    </details>
  );
}

function countWords(
  comments: readonly Comment[],
  signoffs: readonly Signoff[],
  lapsed: (one: Signoff) => boolean,
): string {
  const open = comments.filter((one) => !one.settled).length;
  const over = signoffs.filter(lapsed).length;
  return [
    ...(open > 0 ? [`${open} open`] : []),
    ...(signoffs.length > over ? [`${signoffs.length - over} signed`] : []),
    ...(over > 0 ? [`${counted(over, "sign-off")} undone by a change`] : []),
  ].join(", ");
}

function CommentLine({ comment }: { readonly comment: Comment }) {
  const { session } = useApp();
  const { by, atUtc, text, settled } = comment;
  return (
    <li data-settled={settled}>
      <p>{text}</p>
      <span className="note">
        {by}, {remarkedAt(atUtc)}
      </span>
      <label>
        <input
          type="checkbox"
          checked={settled}
          onChange={(event) => session.settle(comment, event.target.checked)}
        />{" "}
        Settled
      </label>
      <button type="button" className="quiet" onClick={() => session.takeCommentOut(comment)}>
        Take out<span className="unseen"> the comment by {by}</span>
      </button>
    </li>
  );
}

function NewComment(props: {
  readonly about: About;
  readonly disabledReason: string | undefined;
  readonly children: ReactNode;
}) {
  const { about, disabledReason, children } = props;
  const { session } = useApp();
  const [text, setText] = useState("");
  const [fault, setFault] = useState<string | null>(null);
  const reason = disabledReason ?? (text.trim() === "" ? "Write something first." : undefined);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (reason !== undefined) return;
        const made = session.comment(about, text);
        setFault(made.ok ? null : (made.error[0]?.message ?? ""));
        if (made.ok) setText("");
      }}
    >
      <label>
        Comment
        <textarea value={text} rows={2} maxLength={4000} onChange={(event) => setText(event.target.value)} />
      </label>
      {fault !== null && (
        <p className="state breach" role="alert">
          Not taken: {fault}.
        </p>
      )}
      <div className="pair">
        <button type="submit" aria-disabled={reason !== undefined} title={reason}>
          Add comment
        </button>
        {children}
      </div>
    </form>
  );
}
