import { useRef, useState } from "react";
import type { SiteRing, SiteWalks } from "../../answers/index.ts";
import type { HeightSource, SiteFile, Taken } from "../../session/index.ts";
import { useAround } from "../context.ts";
import { download } from "../parts/files.ts";
import { useSite } from "./around.ts";
import { HeightsDialog } from "./heightsdialog.tsx";

/** GeoJSON in and out, heights in; what came of a file is said beside the buttons. */
export function SiteFiles(props: { readonly walks: SiteWalks | null; readonly rings: readonly SiteRing[] }) {
  const { desk } = useAround();
  const { site, siteLook } = useSite();
  const [taken, setTaken] = useState<Taken | null>(null);
  const [busy, setBusy] = useState(false);
  const [heights, setHeights] = useState<HeightSource | null>(null);
  const read = async (take: (file: SiteFile) => Promise<Taken>, file: SiteFile): Promise<void> => {
    setBusy(true);
    const what = await take(file);
    setBusy(false);
    setTaken(what);
    // Other ground and other places are shown whole.
    if (what.ok) siteLook.setState({ frame: null });
  };
  const openHeights = async (files: readonly SiteFile[]): Promise<void> => {
    setBusy(true);
    const found = await site.openHeights(files);
    setBusy(false);
    if ("ok" in found) setTaken(found);
    else setHeights(found);
  };
  return (
    <section className="site-files" aria-label="Site files">
      <FileButton
        name="Add GeoJSON…"
        accept=".geojson,.json,application/geo+json,application/json"
        disabled={busy}
        onFiles={([file]) => file && void read(site.addGeoJson, file)}
      />
      <button
        type="button"
        onClick={() => {
          const name = desk.fileName().replace(/\.json$/, ".geojson");
          download(name, [site.geoJson(props.walks, props.rings)], "application/geo+json");
          setTaken({ ok: true, words: `${name}: places, keep-outs, ways of the day and limits written.` });
        }}
      >
        Save GeoJSON
      </button>
      <FileButton
        name="Heights from file…"
        accept=".tif,.tiff,.asc,.txt,.grd,.prj,.msk,image/tiff,text/plain"
        disabled={busy}
        several
        onFiles={(files) => void openHeights(files)}
      />
      <p
        className={taken && !taken.ok ? "state breach" : "note"}
        role={taken && !taken.ok ? "alert" : "status"}
      >
        {busy
          ? "Reading…"
          : (taken?.words ??
            "GeoJSON in degrees on the plan's body; heights as GeoTIFF or ASCII grid, with the .prj and .msk beside it.")}
      </p>
      {taken?.lines && !busy && (
        <ul className="note site-taken" aria-label="What was taken">
          {taken.lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {heights && (
        <HeightsDialog
          source={heights}
          onClose={(what) => {
            setHeights(null);
            if (!what) return;
            setTaken(what);
            if (what.ok) siteLook.setState({ frame: null });
          }}
        />
      )}
    </section>
  );
}

function FileButton(props: {
  readonly name: string;
  readonly accept: string;
  readonly disabled: boolean;
  /** Several may be chosen together. */
  readonly several?: boolean;
  readonly onFiles: (files: readonly File[]) => void;
}) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" disabled={props.disabled} onClick={() => input.current?.click()}>
        {props.name}
      </button>
      <input
        ref={input}
        type="file"
        hidden
        multiple={props.several}
        accept={props.accept}
        aria-label={props.name}
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          event.target.value = "";
          if (files.length > 0) props.onFiles(files);
        }}
      />
    </>
  );
}
