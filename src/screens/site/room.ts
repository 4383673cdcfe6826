import { useEffect, useLayoutEffect, useMemo, useState } from "react";
import { type Extent, fitted } from "../../editor/map/index.ts";
import { useSite, useSiteLook } from "./around.ts";
import { PAD_PX } from "./shown.ts";

/** The room that a map has, and its frame in it. */

/** The frame in the room there is; all of `extent` while none was chosen. */
export function useFrame(size: { readonly width: number; readonly height: number }, extent: Extent) {
  const { siteLook } = useSite();
  const kept = useSiteLook((state) => state.frame);
  const frame = useMemo(() => {
    const all = fitted(extent, size.width, size.height, PAD_PX);
    return kept ? { ...kept, widthPx: size.width, heightPx: size.height } : all;
  }, [kept, extent, size]);
  useEffect(() => {
    // Kept once it is shown, so that places moved later do not move the map under them.
    if (!kept && size.width > 0) siteLook.setState({ frame });
  }, [kept, size, frame, siteLook]);
  return frame;
}

/** The size of an element, kept up to date, pixels; none before it is measured. */
export function useSize(ref: React.RefObject<HTMLElement | null>) {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const measure = (): void =>
      setSize((now) =>
        now.width === element.clientWidth && now.height === element.clientHeight
          ? now
          : { width: element.clientWidth, height: element.clientHeight },
      );
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, [ref]);
  return size;
}
