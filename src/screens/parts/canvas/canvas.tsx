import { memo, useEffect, useLayoutEffect, useRef, useState } from "react";
import { useView } from "../../context.ts";
import { type Palette, paletteOf } from "../../theme/palette.ts";
import { type Brush, brushFor, forgetWidths } from "./brush.ts";
import type { Columns } from "./changed.ts";

interface Sized {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly className?: string;
  /** By how much the picture is pushed to the right without being painted anew; none when it is not given. */
  readonly pushedPx?: number;
}

/** A canvas that `paint` fills, again whenever anything it is drawn from has changed. Shown to eyes only. */
export const Canvas = memo(function Canvas(props: Sized & { readonly paint: (brush: Brush) => void }) {
  return <KeptCanvas {...props} drawn={props.paint} changed={afresh} paint={paintItself} />;
});

function paintItself(brush: Brush, paint: (brush: Brush) => void): void {
  paint(brush);
}

function afresh(was: unknown, now: unknown): Columns | "all" | null {
  return was === now ? null : "all";
}

/** What was painted last, and on what. */
interface Painted<Drawn> {
  readonly drawn: Drawn;
  readonly palette: Palette;
  readonly density: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

/**
 * A canvas with a picture of what is `drawn`, painted anew only in the columns in which it has `changed` since: `paint` then gets
 * these columns, and may leave out what lies outside of them. `changed` and `paint` stay the same functions.
 */
export function KeptCanvas<Drawn>(
  props: Sized & {
    readonly drawn: Drawn;
    readonly changed: (was: Drawn, now: Drawn) => Columns | "all" | null;
    readonly paint: (brush: Brush, drawn: Drawn, columns: Columns | null) => void;
  },
) {
  const { widthPx, heightPx, pushedPx, drawn, changed, paint } = props;
  const ref = useRef<HTMLCanvasElement>(null);
  const painted = useRef<Painted<Drawn> | null>(null);
  const palette = usePalette();
  const density = useDensity();
  useLayoutEffect(() => {
    if (!ref.current || !palette || widthPx < 1 || heightPx < 1) return;
    const was = painted.current;
    const next = { drawn, palette, density, widthPx, heightPx };
    const columns = was && sameSurface(was, next) ? changed(was.drawn, drawn) : "all";
    painted.current = next;
    if (columns === null) return;
    const part = columns === "all" ? null : columns;
    const taken = brushFor(ref.current, palette, widthPx, heightPx, density, part);
    if (!taken) return;
    paint(taken.brush, drawn, part);
    taken.done();
  }, [palette, density, widthPx, heightPx, drawn, changed, paint]);
  return (
    <canvas
      ref={ref}
      className={props.className}
      style={{
        width: widthPx,
        height: heightPx,
        display: "block",
        ...(pushedPx === undefined ? {} : { transform: `translateX(${pushedPx}px)` }),
      }}
      aria-hidden="true"
    />
  );
}

function sameSurface(a: Painted<unknown>, b: Painted<unknown>): boolean {
  return (
    a.palette === b.palette && a.density === b.density && a.widthPx === b.widthPx && a.heightPx === b.heightPx
  );
}

/** The theme's colours; another object after the theme has changed or the face has arrived, so that all is painted anew. */
function usePalette(): Palette | null {
  const theme = useView((view) => view.theme);
  const [palette, setPalette] = useState<Palette | null>(null);
  useLayoutEffect(() => {
    const read = (): void => setPalette(shared(document.documentElement));
    read();
    // The attribute is set by a parent's effect, which runs after this one.
    const watch = new MutationObserver(read);
    watch.observe(document.documentElement, { attributes: true, attributeFilter: ["data-theme"] });
    return () => watch.disconnect();
  }, [theme]);
  const face = useFace();
  useEffect(() => {
    // Once for all canvases: with a palette each they would make their hatchings anew in every painting.
    if (face) setPalette(shared(document.documentElement));
  }, [face]);
  return palette;
}

/** True once the house face is here, or will not come: from then on text has the widths that it keeps. */
export function useFace(): boolean {
  const [face, setFace] = useState(arrived);
  useEffect(() => {
    let gone = false;
    void faceComing().then(() => {
      if (!gone) setFace(arrived);
    });
    return () => {
      gone = true;
    };
  }, []);
  return face;
}

/** Resolves when the face has arrived, or will not. */
function faceComing(): Promise<void> {
  coming ??= Promise.all(
    ["condensed 600 13px", "640 13px"].map((one) => document.fonts?.load(`${one} "Encode Sans Variable"`)),
  ).then(
    () => {
      arrived = true;
      forgetWidths();
      cached = null;
    },
    // Without the face the system's own is painted.
    () => void (arrived = true),
  );
  return coming;
}

let coming: Promise<void> | null = null;
let arrived = false;
let cached: { theme: string; palette: Palette } | null = null;

/** One palette for all canvases, so that their hatchings are made once. */
function shared(root: HTMLElement): Palette {
  const theme = root.dataset["theme"] ?? "light";
  if (cached?.theme !== theme) cached = { theme, palette: paletteOf(root) };
  return cached.palette;
}

function useDensity(): number {
  const [density, setDensity] = useState(() => window.devicePixelRatio || 1);
  useEffect(() => {
    const query = window.matchMedia?.(`(resolution: ${density}dppx)`);
    const changed = (): void => setDensity(window.devicePixelRatio || 1);
    query?.addEventListener("change", changed);
    return () => query?.removeEventListener("change", changed);
  }, [density]);
  return density;
}
