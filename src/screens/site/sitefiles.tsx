import { useRef, useState } from "react";
import type { SiteRing, SiteWalks } from "../../answers/index.ts";
import type { HeightSource, SiteFile, Taken } from "../../session/index.ts";
import { useApp } from "../context.ts";
import { download } from "../parts/files.ts";
import { stateFile } from "../parts/statefile.ts";
import { useSite } from "./context.ts";
import { HeightsDialog } from "./heightsdialog.tsx";

/** GeoJSON in and out, heights in; what came of a file is said beside the buttons. */
export function SiteFiles(props: { readonly walks: SiteWalks | null; readonly rings: readonly SiteRing[] }) {
  const { session } = useApp();
  const { site } = useSite();
  const { taken, busy, heights, readGeoJson, openHeights, closeHeights, say } = useSiteFiles();
  return (
    <section className="site-files" aria-label="Site files">
      <FileButton
        name="Add GeoJSON…"
        accept=".geojson,.json,application/geo+json,application/json"
        disabled={busy}
        onFiles={([file]) => file && void readGeoJson(file)}
      />
      <button
        type="button"
        onClick={() => {
          const name = stateFile(session.state.getState().plan, "site.geojson");
          download(name, [site.geoJson(props.walks, props.rings)], "application/geo+json");
          say({ ok: true, words: `${name}: places, keep-outs, ways of the day and limits written.` });
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
      <TakenWords taken={taken} busy={busy} />
      {heights && <HeightsDialog source={heights} onClose={closeHeights} />}
    </section>
  );
}

/** Files that are read into the site, and what came of the last one. */
function useSiteFiles() {
  const { site, siteView } = useSite();
  const [taken, say] = useState<Taken | null>(null);
  const [busy, setBusy] = useState(false);
  const [heights, setHeights] = useState<HeightSource | null>(null);
  const took = (what: Taken): void => {
    say(what);
    // Other ground and other places are shown whole.
    if (what.ok) siteView.setState({ frame: null });
  };
  return {
    taken,
    busy,
    /** A file of heights that is asked about; null while none is. */
    heights,
    say,
    async readGeoJson(file: SiteFile): Promise<void> {
      setBusy(true);
      const what = await site.addGeoJson(file);
      setBusy(false);
      took(what);
    },
    async openHeights(files: readonly SiteFile[]): Promise<void> {
      setBusy(true);
      const found = await site.openHeights(files);
      setBusy(false);
      if ("ok" in found) say(found);
      else setHeights(found);
    },
    closeHeights(what: Taken | null): void {
      setHeights(null);
      if (what) took(what);
    },
  };
}

function TakenWords({ taken, busy }: { readonly taken: Taken | null; readonly busy: boolean }) {
  const refused = taken !== null && !taken.ok;
  return (
    <>
      <p className={refused ? "state breach" : "note"} role={refused ? "alert" : "status"}>
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
    </>
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
      <button
        type="button"
        disabled={props.disabled}
        title={props.disabled ? "A file is being read." : undefined}
        onClick={() => input.current?.click()}
      >
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
