import type { Run } from "../../session/index.ts";
import { counted, grouped, lasting } from "../../words/index.ts";
import { useSession } from "../context.ts";

const WIDE = 200;
const HIGH = 18;

/** How far the packer is: time as a fill, the worth of each better day as a step in it, and the last of them in words. */
export function Allowance() {
  const run = useSession((state) => state.run);
  if (!run?.running) return null;
  const { steps } = run;
  const last = steps.at(-1);
  const was = steps.at(-2);
  const gained = last && was ? last.score.worth - was.score.worth : 0;
  return (
    <>
      <b>{run.kind === "pack" ? "Packing" : "Mending"}</b>
      <Strip run={run} />
      <span>{usedWords(run)}</span>
      {last ? (
        <span>
          better day {steps.length}: worth {grouped(last.score.worth)}
          {gained > 0 && `, ${grouped(gained)} more than the last`}
          {last.score.breaches > 0 && `, ${counted(last.score.breaches, "breach", "breaches")}`}
        </span>
      ) : (
        <span>no better day yet</span>
      )}
    </>
  );
}

/** `3 s of 5 s`; when all of it is used the last day is being finished, and no more time is counted than was allowed. */
function usedWords({ progress, seconds }: Run): string {
  if (!progress) return `of ${lasting(seconds, "down")}`;
  if (progress.seconds >= seconds) return `${lasting(seconds, "down")} used, finishing`;
  return `${lasting(Math.floor(progress.seconds), "down")} of ${lasting(seconds, "down")}`;
}

function Strip({ run }: { readonly run: Run }) {
  const share = Math.min(1, (run.progress?.seconds ?? 0) / run.seconds);
  const most = Math.max(1, ...run.steps.map(({ score }) => score.worth));
  const x = (seconds: number): number => Math.min(1, seconds / run.seconds) * WIDE;
  const y = (worth: number): number => HIGH - 1 - (worth / most) * (HIGH - 4);
  const path = run.steps
    .map(({ seconds, score: { worth } }, i) =>
      i === 0 ? `M${x(seconds)} ${y(worth)}` : `H${x(seconds)}V${y(worth)}`,
    )
    .join("");
  return (
    <svg
      className="allowance"
      width={WIDE}
      height={HIGH}
      role="progressbar"
      aria-label="Time used"
      aria-valuemin={0}
      aria-valuemax={run.seconds}
      aria-valuenow={Math.floor(share * run.seconds)}
    >
      <rect className="allowance-used" width={share * WIDE} height={HIGH} />
      {path !== "" && <path d={`${path}H${share * WIDE}`} />}
    </svg>
  );
}
