import "./import.css";
import { useEffect, useRef, useState } from "react";
import { type ListFile, openList, type RememberedReadings, rememberedReadings } from "../../session/lists.ts";
import { Dialog } from "../parts/dialog.tsx";
import { DialogHead } from "../parts/dialoghead.tsx";
import { useApp, useView } from "../context.ts";
import { ListView } from "./listview.tsx";
import { pastedList, type Source, sourcesOf } from "./sources.ts";

/** Lists that others wrote in spreadsheets, taken into the open plan: opened files and pasted rows, one list after the other. */
export function ImportWindow() {
  const { view, memory } = useApp();
  const files = useView((state) => state.importing);
  const [remembered] = useState(() => rememberedReadings(memory));
  const { sources, shown, show, paste, taken, took, trouble } = useSources(files ?? NO_FILES, remembered);
  return (
    <Dialog
      className="import-dialog"
      aria-labelledby="import-title"
      onClose={() => view.setState({ importing: null })}
    >
      <DialogHead id="import-title" title="Import a list">
        {shown && (
          <button type="button" onClick={() => show(null)}>
            Paste rows…
          </button>
        )}
        <ChooseFiles onFiles={(chosen) => view.setState({ importing: chosen })} />
      </DialogHead>
      {trouble.map((words) => (
        <p key={words} className="import-trouble" role="alert">
          <b>Not read.</b> {words}
        </p>
      ))}
      {sources.length > 1 && <SourceChoice sources={sources} shown={shown} taken={taken} onShow={show} />}
      {shown ? (
        <ListView
          key={shown.key}
          source={shown}
          taken={taken.get(shown) ?? null}
          remembered={remembered}
          onTaken={(words) => took(shown, words)}
        />
      ) : (
        <Paste onText={(text) => paste(text)} />
      )}
    </Dialog>
  );
}

const NO_FILES: readonly ListFile[] = [];

/** The lists that were opened and pasted, the one that is shown, and what was taken of each. */
function useSources(files: readonly ListFile[], remembered: RememberedReadings) {
  const [sources, setSources] = useState<readonly Source[]>([]);
  const [shown, show] = useState<Source | null>(null);
  const [taken, setTaken] = useState<ReadonlyMap<Source, string>>(new Map());
  const [trouble, setTrouble] = useState<readonly string[]>([]);
  useEffect(() => {
    let gone = false;
    void readAll(files, remembered).then((read) => {
      if (gone) return;
      setSources(read.sources);
      show(read.sources[0] ?? null);
      setTrouble(read.trouble);
    });
    return () => {
      gone = true;
    };
  }, [files, remembered]);
  const paste = (text: string): void => {
    const pasted = pastedList(text, remembered, sources.length);
    setTrouble(pasted.ok ? [] : [`The pasted rows: ${pasted.error}.`]);
    if (!pasted.ok) return;
    setSources((now) => [...now, pasted.value]);
    show(pasted.value);
  };
  /** Notes what was taken of a list, and shows the next one of which nothing is. */
  const took = (source: Source, words: string): void => {
    const now = new Map([...taken, [source, words]]);
    setTaken(now);
    show(sources.find((one) => !now.has(one)) ?? source);
  };
  return { sources, shown, show, paste, taken, took, trouble };
}

function SourceChoice(props: {
  readonly sources: readonly Source[];
  readonly shown: Source | null;
  readonly taken: ReadonlyMap<Source, string>;
  readonly onShow: (source: Source) => void;
}) {
  const { sources, shown, taken, onShow } = props;
  return (
    <nav className="import-sources" aria-label="Lists">
      {sources.map((source) => (
        <button key={source.key} type="button" aria-pressed={source === shown} onClick={() => onShow(source)}>
          {source.sheet.name}
          {taken.has(source) && <span className="note"> taken</span>}
        </button>
      ))}
    </nav>
  );
}

async function readAll(
  files: readonly ListFile[],
  remembered: RememberedReadings,
): Promise<{ readonly sources: readonly Source[]; readonly trouble: readonly string[] }> {
  const read = await Promise.all(files.map(async (file) => ({ file, sheets: await openList(file) })));
  const sheets = read.flatMap(({ sheets: found }) => (found.ok ? found.value : []));
  return {
    sources: sourcesOf(sheets, remembered),
    trouble: read.flatMap(({ file, sheets: found }) => (found.ok ? [] : [`${file.name}: ${found.error}.`])),
  };
}

function ChooseFiles({ onFiles }: { readonly onFiles: (files: readonly File[]) => void }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" onClick={() => input.current?.click()}>
        Choose files…
      </button>
      <input
        ref={input}
        type="file"
        hidden
        multiple
        accept=".csv,.tsv,.txt,.xlsx"
        aria-label="Files with lists"
        onChange={(event) => {
          const files = [...(event.currentTarget.files ?? [])];
          event.currentTarget.value = "";
          if (files.length > 0) onFiles(files);
        }}
      />
    </>
  );
}

function Paste({ onText }: { readonly onText: (text: string) => void }) {
  const [text, setText] = useState("");
  return (
    <div className="import-paste">
      <label htmlFor="import-text">
        Choose files (CSV, TSV or XLSX) above, or paste rows from a spreadsheet here, with their heads:
      </label>
      <textarea
        id="import-text"
        rows={12}
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
      />
      <button
        type="button"
        className="primary"
        disabled={text.trim() === ""}
        title={text.trim() === "" ? "Paste rows first." : undefined}
        onClick={() => onText(text)}
      >
        Read these rows
      </button>
    </div>
  );
}
