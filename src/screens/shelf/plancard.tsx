import { useState } from "react";
import type { Card } from "../../session/index.ts";
import { sizeWords } from "../parts/keptwords.ts";
import { useAround } from "../context.ts";
import { download } from "../parts/files.ts";
import { DayPicture } from "./daypicture.tsx";
import { momentWords, placedWords } from "./shelfwords.ts";

/** Does something with the store, says how it went in the words that it answers, and reads the shelf anew. */
export type Act = (work: () => Promise<string | null>) => Promise<void>;

/** A plan on the shelf or in the bin, with what can be done with it. */
export function PlanCard(props: {
  readonly card: Card;
  readonly open: boolean;
  readonly chosen: boolean;
  readonly onChoose: () => void;
  readonly act: Act;
  readonly close: () => void;
}) {
  const { card, open, chosen, onChoose } = props;
  const { onOpen, onCopy, onRename, onFile, onBin, onDrop } = useCardWork(props);
  const [renaming, rename] = useState(false);
  const { title } = card;
  const binned = card.binnedAtMs !== null;
  return (
    <li className={chosen && !binned ? "shelf-chosen" : undefined} data-slot={card.slot}>
      <button
        type="button"
        className="shelf-card"
        aria-pressed={chosen && !binned}
        aria-label={`${title}${open ? ", the open plan" : ""}: show its states`}
        onClick={onChoose}
        onDoubleClick={() => !open && !binned && onOpen()}
      >
        <DayPicture picture={card.picture} />
        <span className="shelf-words">
          <b>{title}</b>
          <span className="note">{placedWords(card)}</span>
          <span className="note">
            {binned ? `In the bin since ${momentWords(card.binnedAtMs ?? 0)}` : momentWords(card.savedAtMs)},{" "}
            {sizeWords(card.bytes)}
          </span>
        </span>
        {open && <span className="state fine">Open</span>}
      </button>
      {renaming ? (
        <Rename
          title={title}
          onDone={(next) => {
            rename(false);
            if (next !== null && next !== title) onRename(next);
          }}
        />
      ) : binned ? (
        <BinnedWork title={title} onBack={() => onBin(false)} onDrop={onDrop} />
      ) : (
        <div className="pair" role="group" aria-label={`Do with ${title}`}>
          <button type="button" className={open ? undefined : "primary"} disabled={open} onClick={onOpen}>
            Open<span className="unseen"> {title}</span>
          </button>
          <button type="button" onClick={onCopy}>
            Copy<span className="unseen"> {title}</span>
          </button>
          <button type="button" onClick={() => rename(true)}>
            Rename<span className="unseen"> {title}</span>
          </button>
          <button type="button" onClick={onFile}>
            To a file<span className="unseen">: {title}</span>
          </button>
          <button
            type="button"
            disabled={open}
            title={open ? "It is the open plan: open another one first." : undefined}
            onClick={() => onBin(true)}
          >
            To the bin<span className="unseen">: {title}</span>
          </button>
        </div>
      )}
    </li>
  );
}

function useCardWork(props: { readonly card: Card; readonly act: Act; readonly close: () => void }) {
  const { card, act, close } = props;
  const { desk } = useAround();
  const { slot, title } = card;
  return {
    onOpen: () =>
      void act(async () => {
        if (await desk.openSlot(slot)) close();
        return null;
      }),
    onCopy: () =>
      void act(async () => {
        if (!(await desk.openCopy({ slot }))) return `${title} cannot be read.`;
        close();
        return null;
      }),
    onRename: (next: string) =>
      void act(async () => {
        const made = await desk.renamePlan(slot, next);
        return made.ok ? `Renamed to ${next}.` : (made.error[0]?.message ?? "It keeps its name.");
      }),
    onFile: () =>
      void act(async () => {
        const file = await desk.fileOf({ slot });
        download(file.name, [file.text], "application/json");
        return null;
      }),
    onBin: (away: boolean) =>
      void act(
        async () =>
          (await desk.binPlan(slot, away)) ?? `${title} is ${away ? "in the bin" : "back on the shelf"}.`,
      ),
    onDrop: () =>
      void act(async () => {
        await desk.dropPlan(slot);
        return `${title} is deleted.`;
      }),
  };
}

function Rename(props: { readonly title: string; readonly onDone: (title: string | null) => void }) {
  const [title, setTitle] = useState(props.title);
  return (
    <form
      className="shelf-rename"
      onSubmit={(event) => {
        event.preventDefault();
        props.onDone(title.trim() === "" ? null : title.trim());
      }}
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.preventDefault();
        event.stopPropagation();
        props.onDone(null);
      }}
    >
      <input
        aria-label="New title"
        autoFocus
        maxLength={120}
        value={title}
        onChange={(event) => setTitle(event.target.value)}
      />
      <button type="submit" className="primary">
        Rename
      </button>
      <button type="button" onClick={() => props.onDone(null)}>
        Keep the name
      </button>
    </form>
  );
}

/** What is in the bin is deleted for good only when that is said twice. */
function BinnedWork(props: {
  readonly title: string;
  readonly onBack: () => void;
  readonly onDrop: () => void;
}) {
  const { title, onBack, onDrop } = props;
  const [sure, ask] = useState(false);
  return (
    <div className="pair" role="group" aria-label={`Do with ${title}`}>
      <button type="button" className="primary" onClick={onBack}>
        Put back<span className="unseen"> {title}</span>
      </button>
      <button type="button" className="danger" onClick={() => (sure ? onDrop() : ask(true))}>
        {sure ? "Delete it and all its states" : "Delete for good…"}
        <span className="unseen"> {title}</span>
      </button>
    </div>
  );
}
