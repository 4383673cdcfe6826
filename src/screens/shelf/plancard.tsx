import { useState } from "react";
import type { Card } from "../../session/index.ts";
import { sizeWords } from "../../words/index.ts";
import { useApp } from "../context.ts";
import { download } from "../parts/files.ts";
import { DayPicture } from "./daypicture.tsx";
import { momentWords } from "../parts/moment.ts";
import { placedWords } from "./shelfwords.ts";
import type { Act } from "./shelfwork.ts";

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
      <CardFace
        card={card}
        open={open}
        chosen={chosen && !binned}
        onChoose={onChoose}
        onDoubleClick={() => !open && !binned && onOpen()}
      />
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
        <KeptWork
          {...{ title, open, onOpen, onCopy, onFile }}
          onRename={() => rename(true)}
          onBin={() => onBin(true)}
        />
      )}
    </li>
  );
}

/** A plan's picture and what is known of it; a press shows its states. */
function CardFace(props: {
  readonly card: Card;
  readonly open: boolean;
  readonly chosen: boolean;
  readonly onChoose: () => void;
  readonly onDoubleClick: () => void;
}) {
  const { card, open, chosen, onChoose, onDoubleClick } = props;
  const { title, binnedAtMs } = card;
  return (
    <button
      type="button"
      className="shelf-card"
      aria-pressed={chosen}
      aria-label={`${title}${open ? ", the open plan" : ""}: show its states`}
      onClick={onChoose}
      onDoubleClick={onDoubleClick}
    >
      <DayPicture picture={card.picture} />
      <span className="shelf-words">
        <b>{title}</b>
        <span className="note">{placedWords(card)}</span>
        <span className="note">
          {binnedAtMs === null ? momentWords(card.savedAtMs) : `In the bin since ${momentWords(binnedAtMs)}`},{" "}
          {sizeWords(card.bytes)}
        </span>
      </span>
      {open && <span className="state fine">Open</span>}
    </button>
  );
}

/** What can be done with a plan on the shelf; the open one is neither opened nor put away. */
function KeptWork(props: {
  readonly title: string;
  readonly open: boolean;
  readonly onOpen: () => void;
  readonly onCopy: () => void;
  readonly onRename: () => void;
  readonly onFile: () => void;
  readonly onBin: () => void;
}) {
  const { title, open } = props;
  return (
    <div className="pair" role="group" aria-label={`Do with ${title}`}>
      <button
        type="button"
        className={open ? undefined : "primary"}
        disabled={open}
        title={open ? "It is open." : undefined}
        onClick={props.onOpen}
      >
        Open<span className="unseen"> {title}</span>
      </button>
      <button type="button" onClick={props.onCopy}>
        Copy<span className="unseen"> {title}</span>
      </button>
      <button type="button" onClick={props.onRename}>
        Rename<span className="unseen"> {title}</span>
      </button>
      <button type="button" onClick={props.onFile}>
        To a file<span className="unseen">: {title}</span>
      </button>
      <button
        type="button"
        disabled={open}
        title={open ? "It is the open plan: open another one first." : undefined}
        onClick={props.onBin}
      >
        To the bin<span className="unseen">: {title}</span>
      </button>
    </div>
  );
}

function useCardWork(props: { readonly card: Card; readonly act: Act; readonly close: () => void }) {
  const { card, act, close } = props;
  const { session } = useApp();
  const { slot, title } = card;
  return {
    onOpen: () =>
      void act(async () => {
        if (await session.openSlot(slot)) close();
        return null;
      }),
    onCopy: () =>
      void act(async () => {
        if (!(await session.openCopy({ slot }))) return `${title} cannot be read.`;
        close();
        return null;
      }),
    onRename: (next: string) =>
      void act(async () => {
        const made = await session.renamePlan(slot, next);
        return made.ok ? `Renamed to ${next}.` : (made.error[0]?.message ?? "It keeps its name.");
      }),
    onFile: () =>
      void act(async () => {
        const file = await session.fileOf({ slot });
        download(file.name, [file.text], "application/json");
        return null;
      }),
    onBin: (away: boolean) =>
      void act(
        async () =>
          (await session.binPlan(slot, away)) ?? `${title} is ${away ? "in the bin" : "back on the shelf"}.`,
      ),
    onDrop: () =>
      void act(async () => {
        await session.dropPlan(slot);
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
  const [sure, setSure] = useState(false);
  return (
    <div className="pair" role="group" aria-label={`Do with ${title}`}>
      <button type="button" className="primary" onClick={onBack}>
        Put back<span className="unseen"> {title}</span>
      </button>
      <button type="button" className="danger" onClick={() => (sure ? onDrop() : setSure(true))}>
        {sure ? "Delete it and all its states" : "Delete for good…"}
        <span className="unseen"> {title}</span>
      </button>
    </div>
  );
}
