import { useCallback, useEffect, useRef } from "react";
import type { SiteGround, SiteLight } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { useSite } from "./context.ts";
import { type Latest, useLatest } from "./latest.ts";

/** The ground of the open plan and the light on it at a minute; both stay the same while places move. */
export function useGroundAndLight(
  open: Plan,
  minuteS: number,
): { readonly ground: Latest<SiteGround | null>; readonly light: Latest<SiteLight> } {
  const { site } = useSite();
  const { ground: stored, stay, body } = open;
  const { latDeg, lonDeg, elevationM } = open.site;
  const skyKey = `${latDeg} ${lonDeg} ${elevationM}`;
  const still = useRef(open);
  useEffect(() => {
    still.current = open;
  }, [open]);
  // The open plan itself is sent, never a copy of it: what the engine has already is not sent again.
  const findGround = useCallback(
    (signal: AbortSignal) => site.ground(still.current, signal),
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [site, stored],
  );
  const findLight = useCallback(
    (signal: AbortSignal) => site.light(still.current, minuteS, signal),
    // What the light depends on beside the minute.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [site, stored, stay, body, skyKey, minuteS],
  );
  return { ground: useLatest(findGround), light: useLatest(findLight) };
}
