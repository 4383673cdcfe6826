import { useEffect, useId, useRef, useState } from "react";
import { Dialog } from "../parts/dialog.tsx";
import type { HeightAnswers, HeightQuestion, HeightSource, Taken } from "../../session/index.ts";
import { useSite } from "./around.ts";

/** What is typed, before it is read. */
const BLANK = { projection: "", up: "", x: "", y: "", unit: "", reach: "", spacing: "", unknown: "" };
type Typed = typeof BLANK;

const UNITS = [
  ["1", "metres"],
  ["1000", "kilometres"],
  ["0.3048", "feet, international (0.3048 m)"],
  [String(1200 / 3937), "feet, US survey (0.3048006 m)"],
] as const;

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
  const [found, setFound] = useState<string | readonly HeightQuestion[] | null>(null);
  const [busy, setBusy] = useState(false);
  const answers = answersOf(typed);

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

  const take = async (): Promise<void> => {
    if ("fault" in answers) return;
    setBusy(true);
    const what = await site.takeHeights(source, answers);
    setBusy(false);
    if ("ok" in what) {
      done.current = what;
      dialog.current?.close();
    } else setFound(what);
  };
  const field = (name: keyof Typed, words: string, note?: string) => (
    <label>
      <span>{words}</span>
      <input
        value={typed[name]}
        onChange={(event) => {
          setTyped({ ...typed, [name]: event.target.value });
        }}
      />
      {note && <small className="note">{note}</small>}
    </label>
  );

  const isLaid = source.projection !== null;
  return (
    <Dialog
      box={dialog}
      className="site-heights"
      aria-labelledby={titleId}
      onClose={() => onClose(done.current)}
    >
      <h2 id={titleId}>Heights from {source.name}</h2>
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
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void take();
        }}
      >
        {!isLaid && (
          <fieldset>
            <legend>Where it lies</legend>
            {field("projection", "Projection in PROJ or WKT 1 words, where known")}
            {field(
              "up",
              "Else: bearing of its upward side, degrees from true north",
              "0 where its first row lies to true north. A polar map seldom does.",
            )}
            {field("x", "Lander in its coordinates, x", "Its middle when left empty.")}
            {field("y", "Lander in its coordinates, y")}
          </fieldset>
        )}
        {source.metresPerHeight === null && (
          <label>
            <span>Unit of the heights</span>
            <select
              value={typed.unit}
              onChange={(event) => {
                setTyped({ ...typed, unit: event.target.value });
              }}
            >
              <option value="">not said: choose</option>
              {UNITS.map(([value, words]) => (
                <option key={value} value={value}>
                  {words}
                </option>
              ))}
            </select>
          </label>
        )}
        <fieldset>
          <legend>How much of it</legend>
          {field("reach", "Only within so many metres of the lander", "All of it when left empty.")}
          {field(
            "spacing",
            "Points so many metres apart",
            "As in the file when left empty. Wider apart, slopes shorter than that are not seen.",
          )}
          {field("unknown", "A value that stands for unknown", "Besides those that the file names.")}
        </fieldset>
        <Outlook fault={"fault" in answers ? answers.fault : null} found={found} />
        <div className="heights-choice">
          <button type="button" onClick={() => dialog.current?.close()}>
            Leave the ground as it is
          </button>
          <button type="submit" disabled={busy || typeof found !== "string"}>
            {busy ? "Reading…" : "Take these heights"}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

/** How it would lie, or what is still open. */
function Outlook(props: {
  readonly fault: string | null;
  readonly found: string | readonly HeightQuestion[] | null;
}) {
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

function answersOf(typed: Typed): HeightAnswers | { readonly fault: string } {
  const number = (name: Exclude<keyof Typed, "projection">): number | undefined =>
    typed[name].trim() === "" ? undefined : Number(typed[name].trim().replace(",", "."));
  const names = { up: "The bearing", x: "x", y: "y", unit: "The unit", reach: "The reach" };
  const all = { ...names, spacing: "The distance of points", unknown: "The value for unknown" };
  for (const [name, words] of Object.entries(all))
    if (Number.isNaN(number(name as keyof typeof all))) return { fault: `${words} must be a number.` };
  const [x, y] = [number("x"), number("y")];
  if ((x === undefined) !== (y === undefined)) return { fault: "The lander wants both x and y." };
  return {
    projection: typed.projection.trim() === "" ? undefined : typed.projection,
    upDeg: number("up"),
    lander: x === undefined || y === undefined ? undefined : { x, y },
    metresPerHeight: number("unit"),
    reachM: number("reach"),
    spacingM: number("spacing"),
    unknown: number("unknown"),
  };
}
