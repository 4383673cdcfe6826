import { useEffect, useLayoutEffect, useRef, useState } from "react";
import { useLook } from "../context.ts";
import { type Palette, paletteOf } from "../theme/palette.ts";
import { type Brush, brushFor, forgetWidths } from "./brush.ts";

/** A canvas that `paint` fills, again whenever anything it is drawn from has changed. Shown to eyes only. */
export function Canvas(props: {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly className?: string;
  readonly paint: (brush: Brush) => void;
}) {
  const { widthPx, heightPx, paint } = props;
  const ref = useRef<HTMLCanvasElement>(null);
  const palette = usePalette();
  const density = useDensity();
  useLayoutEffect(() => {
    if (!ref.current || !palette || widthPx < 1 || heightPx < 1) return;
    const brush = brushFor(ref.current, palette, widthPx, heightPx, density);
    if (brush) paint(brush);
  }, [palette, density, widthPx, heightPx, paint]);
  return (
    <canvas
      ref={ref}
      className={props.className}
      style={{ width: widthPx, height: heightPx, display: "block" }}
      aria-hidden="true"
    />
  );
}

/** The theme's colours; another object after the theme has changed or the face has arrived, so that all is painted anew. */
function usePalette(): Palette | null {
  const theme = useLook((look) => look.theme);
  const [palette, setPalette] = useState<Palette | null>(null);
  useLayoutEffect(() => {
    const read = (): void => setPalette(shared(document.documentElement));
    read();
    // The attribute is set by a parent's effect, which runs after this one.
    const watch = new MutationObserver(read);
    watch.observe(document.documentElement, { attributes: true, attributeFilter: ["data-theme"] });
    return () => watch.disconnect();
  }, [theme]);
  useEffect(() => {
    let gone = false;
    const faces = document.fonts;
    if (!faces) return;
    const needed = ["condensed 600 13px", "640 13px"].map((one) =>
      faces.load(`${one} "Encode Sans Variable"`),
    );
    void Promise.all(needed).then(
      () => {
        if (gone) return;
        // Once for all canvases: with a palette each they would make their hatchings anew in every painting.
        if (!arrived) {
          arrived = true;
          forgetWidths();
          cached = null;
        }
        setPalette(shared(document.documentElement));
      },
      // Without the face the system's own is painted.
      () => undefined,
    );
    return () => {
      gone = true;
    };
  }, []);
  return palette;
}

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
