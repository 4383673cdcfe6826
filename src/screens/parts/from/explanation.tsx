import { useEffect, useLayoutEffect, useMemo, useState } from "react";
import type { FromAnswer, ExplainRequest } from "../../../answers/index.ts";
import { type GivenDay, shownPlan, shownSchedule } from "../../../session/index.ts";
import { useApp, useSession } from "../../context.ts";
import { useSettled } from "../../settled.ts";
import { Worked } from "./worked.tsx";

/** A day that has not changed for so long is asked about, ms: the packer's better days come in a stream. */
const REST_MS = 200;

/**
 * From what a figure comes, asked while it is open: again whenever the day changes underneath it. What is of a day before says so.
 * `laid` is called whenever what stands here may have another size.
 */
export function Explanation(props: {
  readonly request: ExplainRequest;
  /** The day that is asked; the one on the screen when left out. */
  readonly day: GivenDay | undefined;
  readonly laid: () => void;
}) {
  const { day, laid } = props;
  const { session } = useApp();
  const plan = useSession((state) => day?.plan ?? shownPlan(state));
  const schedule = useSession((state) => day?.schedule ?? shownSchedule(state));
  const now = useMemo(() => ({ plan, schedule }), [plan, schedule]);
  const settled = useSettled(now, REST_MS);
  // Requests are made anew with every drawing; what they say stays the same.
  const request = JSON.stringify(props.request);
  const [tries, setTries] = useState(0);
  const [reply, say] = useState<{ readonly of: GivenDay; readonly answer: Answer } | null>(null);

  useEffect(() => {
    let wanted = true;
    void session.fromWhat(JSON.parse(request) as ExplainRequest, settled).then((answer) => {
      if (wanted) say({ of: settled, answer });
    });
    return () => {
      wanted = false;
    };
  }, [session, request, settled, tries]);
  const current = reply?.of === now;
  useLayoutEffect(laid, [laid, reply, current]);

  const again = (): void => {
    say(null);
    setTries(tries + 1);
  };
  return (
    <div aria-busy={!current}>
      {!current && (
        <p className="note">
          {reply === null ? "Worked out again …" : "The day has changed; worked out again …"}
        </p>
      )}
      {reply && <Reply answer={reply.answer} again={again} />}
    </div>
  );
}

type Answer = FromAnswer | "gone" | "failed";

function Reply({ answer, again }: { readonly answer: Answer; readonly again: () => void }) {
  if (answer === "gone") return <p>The day has no such figure any more.</p>;
  if (answer !== "failed") return <Worked answer={answer} />;
  return (
    <p>
      This could not be worked out. The figure itself may still hold.{" "}
      <button type="button" onClick={again}>
        Try again
      </button>
    </p>
  );
}
