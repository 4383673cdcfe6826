import { useEffect, useId, useRef, useState } from "react";
import type { HeightAnswers, HeightQuestion, HeightSource, Taken } from "../../session/index.ts";
import { Dialog } from "../parts/dialog.tsx";
import { useSite } from "./context.ts";
import { answersOf, BLANK, type Typed } from "./heightanswers.ts";
import { HowMuch, UnitChoice, WhereItLies } from "./heightfields.tsx";

/** What a file comes to with what is typed: a sentence, or what is still open; null before that is known. */
type Found = string | readonly HeightQuestion[] | null;

/**
 * Asks for what a file of heights leaves open and how much of it is wanted, says how it would lie, and takes it. Nothing is
 * filled in for the person: what the file does not say stays empty until somebody says it.
 */
export function HeightsDialog(props: {
  readonly source: HeightSource;
  /** What came of it; null when nothing was taken. */
  readonly onClose: (taken: Taken | null) => void;
}) {
  const { source, onClose } = props;
  const { site } = useSite();
  const dialog = useRef<HTMLDialogElement>(null);
  const done = useRef<Taken | null>(null);
  const titleId = useId();
  const [typed, setTyped] = useState<Typed>(BLANK);
  const [found, setFound] = useFound(source, typed);
  const [busy, setBusy] = useState(false);
  const answers = answersOf(typed);
  const type = (part: Partial<Typed>): void => setTyped({ ...typed, ...part });

  const take = async (wanted: HeightAnswers): Promise<void> => {
    setBusy(true);
    const what = await site.takeHeights(source, wanted);
    setBusy(false);
    if ("ok" in what) {
      done.current = what;
      dialog.current?.close();
    } else setFound(what);
  };
  return (
    <Dialog
      box={dialog}
      className="site-heights"
      aria-labelledby={titleId}
      onClose={() => onClose(done.current)}
    >
      <h2 id={titleId}>Heights from {source.name}</h2>
      <SourceWords source={source} />
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (!("fault" in answers)) void take(answers);
        }}
      >
        {source.projection === null && <WhereItLies typed={typed} onType={type} />}
        {source.metresPerHeight === null && <UnitChoice typed={typed} onType={type} />}
        <HowMuch typed={typed} onType={type} />
        <Outlook fault={"fault" in answers ? answers.fault : null} found={found} />
        <div className="heights-choice">
          <button type="button" onClick={() => dialog.current?.close()}>
            Leave the ground as it is
          </button>
          <button
            type="submit"
            disabled={busy || typeof found !== "string"}
            title={busy || typeof found === "string" ? undefined : "Answer what is asked above first."}
          >
            {busy ? "Reading…" : "Take these heights"}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

/** What the file comes to with what is typed, asked anew after every key. */
function useFound(source: HeightSource, typed: Typed): [Found, (found: Found) => void] {
  const { site } = useSite();
  const [found, setFound] = useState<Found>(null);
  useEffect(() => {
    const read = answersOf(typed);
    if ("fault" in read) {
      setFound(null);
      return;
    }
    let isLate = false;
    void site.layHeights(source, read).then((what) => {
      if (!isLate) setFound(what);
    });
    return () => {
      isLate = true;
    };
  }, [site, source, typed]);
  return [found, setFound];
}

/** What the file says of itself. */
function SourceWords({ source }: { readonly source: HeightSource }) {
  return (
    <ul>
      <li>
        {source.columns} by {source.rows} heights
      </li>
      <li>Coordinates: {source.projectionWords}</li>
      <li>Unit of the heights: {source.unitWords}</li>
      {source.notes.map((note) => (
        <li key={note}>{note}</li>
      ))}
    </ul>
  );
}

/** How it would lie, or what is still open. */
function Outlook(props: { readonly fault: string | null; readonly found: Found }) {
  const { fault, found } = props;
  if (fault) return <p className="state breach">{fault}</p>;
  if (found === null || typeof found === "string") return <p role="status">{found ?? "Looking…"}</p>;
  return (
    <div role="status">
      {found.map(({ about, words }) => (
        <p
          key={words}
          className={about === "unit" || about === "projection" ? "state tight" : "state breach"}
        >
          {words} {NEXT[about]}
        </p>
      ))}
    </div>
  );
}

/** What a person can do about a question. */
const NEXT: Readonly<Record<HeightQuestion["about"], string>> = {
  projection: "Say it above.",
  unit: "Say it above.",
  unknown: "Say it above.",
  size: "",
  place: "Put the plan's site right in Setup, Site and places, or choose another file.",
  body: "Put the plan's body right in Setup, or choose another file.",
};
