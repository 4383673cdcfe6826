import "./quarantine.css";
import { type RefObject, useLayoutEffect, useRef, useState } from "react";
import { type QuarantinedPlan, wordsOf } from "../../session/index.ts";
import { counted, sizeWords } from "../../words/index.ts";
import { momentWords } from "../parts/moment.ts";
import { useApp } from "../context.ts";
import { Dialog } from "../parts/dialog.tsx";
import { DialogHead } from "../parts/dialoghead.tsx";
import { download } from "../parts/files.ts";
import { useFound } from "../parts/found.ts";
import { keptWords } from "../parts/keptwords.ts";

/** What the autosave has kept aside: opened, saved as a file, or deleted. */
export function Quarantine() {
  const { session, view } = useApp();
  const box = useRef<HTMLDialogElement>(null);
  const found = useFound(session.listQuarantine);
  const { deleted, turn, notice } = useDeleted(box);
  return (
    <Dialog
      box={box}
      className="quarantine"
      aria-labelledby="quarantine-title"
      onClose={() => view.setState({ quarantineShown: false })}
    >
      <DialogHead id="quarantine-title" title="Plans kept aside" />
      <p className="note">
        What another window had saved, or what could not be read, is kept in this browser and never thrown
        away by itself.
      </p>
      {found === null && <p className="quarantine-none">Looking…</p>}
      {found !== null && "problem" in found && (
        <p className="state breach" role="alert">
          This browser&apos;s store cannot be used: {found.problem}.
        </p>
      )}
      {found !== null && "answer" in found && (
        <>
          {found.answer.length === 0 && <p className="quarantine-none">Nothing is kept aside.</p>}
          <ul aria-label={counted(found.answer.length, "plan kept aside", "plans kept aside")}>
            {found.answer.map((kept) => (
              <Row
                key={kept.key}
                kept={kept}
                deleted={deleted.includes(kept.key)}
                onOpen={() => {
                  if (session.openQuarantined(kept)) box.current?.close();
                }}
                onTurn={(away) => turn(kept, away)}
              />
            ))}
          </ul>
        </>
      )}
      <p className="quarantine-said note" role="status">
        {notice}
      </p>
    </Dialog>
  );
}

/** Which of them are deleted: they stay in their rows until the list is closed, so that they can be brought back. */
function useDeleted(box: RefObject<HTMLElement | null>) {
  const { session } = useApp();
  const [deleted, setDeleted] = useState<readonly number[]>([]);
  const [notice, say] = useState("");
  const turned = useRef<number | null>(null);
  // The button that was pressed is gone: the keyboard goes on in the same row.
  useLayoutEffect(() => {
    if (turned.current === null) return;
    box.current?.querySelector<HTMLElement>(`[data-key="${turned.current}"] button:not(:disabled)`)?.focus();
    turned.current = null;
  }, [deleted, box]);
  const turn = (kept: QuarantinedPlan, away: boolean): void => {
    const work = away ? session.deleteQuarantined(kept) : session.restoreQuarantined(kept);
    work.then(
      () => {
        turned.current = kept.key;
        setDeleted((keys) => (away ? [...keys, kept.key] : keys.filter((key) => key !== kept.key)));
        say(
          `${keptWords(kept)} ${away ? "deleted; it can be brought back until this list is closed" : "brought back"}.`,
        );
      },
      (error: unknown) => say(`That did not work: ${wordsOf(error)}.`),
    );
  };
  return { deleted, turn, notice };
}

function Row(props: {
  readonly kept: QuarantinedPlan;
  readonly deleted: boolean;
  readonly onOpen: () => void;
  readonly onTurn: (away: boolean) => void;
}) {
  const { kept, deleted, onOpen, onTurn } = props;
  const name = keptWords(kept);
  return (
    <li data-key={kept.key} className={deleted ? "deleted" : undefined}>
      <div>
        <b>{name}</b>
        <span className="note">
          {momentWords(kept.atMs)}, {sizeWords(kept.bytes)}
        </span>
        <span className="note">
          Kept because {kept.reason}.
          {kept.fault !== null && kept.fault !== kept.reason && ` Cannot be opened: ${kept.fault}.`}
        </span>
      </div>
      {deleted ? (
        <button type="button" aria-label={`Bring back ${name}`} onClick={() => onTurn(false)}>
          Bring back
        </button>
      ) : (
        <div className="pair">
          <button
            type="button"
            aria-label={`Open ${name}`}
            disabled={kept.fault !== null}
            title={kept.fault === null ? undefined : `Cannot be opened: ${kept.fault}`}
            onClick={onOpen}
          >
            Open
          </button>
          <button
            type="button"
            aria-label={`Save ${name} as a file`}
            onClick={() => download(kept.fileName, [kept.text], "application/json")}
          >
            Save as a file
          </button>
          <button type="button" className="danger" aria-label={`Delete ${name}`} onClick={() => onTurn(true)}>
            Delete
          </button>
        </div>
      )}
    </li>
  );
}
