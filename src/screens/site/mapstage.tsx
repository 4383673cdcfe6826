import { useCallback, useEffect, useRef } from "react";
import { mapX, mapY } from "../../editor/map/index.ts";
import { Canvas } from "../parts/canvas/canvas.tsx";
import type { Brush } from "../parts/canvas/brush.ts";
import { useApp } from "../context.ts";
import { useSite } from "./context.ts";
import { MapHand } from "./maphand.ts";
import { paintFrame } from "./paintframe.ts";
import { paintPlaces } from "./paintplaces.ts";
import { paintWays } from "./paintways.ts";
import type { Picture } from "./picture.ts";
import { useBase } from "./usebase.ts";
import type { SiteCommands } from "./commands.ts";

/** The map itself: painted ground and things, and what hands and keys do on it. */
export function MapStage(props: { readonly picture: Picture; readonly commands: SiteCommands }) {
  const { picture, commands } = props;
  const { siteView } = useSite();
  const { session } = useApp();
  const { frame, light, layers, place } = picture;
  const stage = useRef<HTMLDivElement>(null);

  const latest = useRef(picture);
  useEffect(() => {
    latest.current = picture;
  });
  useEffect(() => {
    const element = stage.current;
    if (!element) return;
    const hand = new MapHand(element, siteView, commands, () => latest.current);
    return hand.listen();
  }, [siteView, commands, session]);

  const paintBase = useBase(picture);
  const paintTop = useCallback(
    (brush: Brush) => {
      if (layers.ways) paintWays(brush, picture);
      paintPlaces(brush, picture);
      paintFrame(brush, frame, light);
    },
    [picture, frame, layers, light],
  );

  const keys = (event: React.KeyboardEvent<HTMLDivElement>): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (!commands.key(event.key, event.shiftKey)) return;
    event.preventDefault();
    event.stopPropagation();
  };
  const chosen = picture.plan.site.places.find((one) => one.id === place);

  return (
    <div
      ref={stage}
      className={picture.moving ? "map-stage moving" : "map-stage"}
      role="application"
      aria-label="Map of the site"
      aria-describedby="map-keys"
      tabIndex={0}
      onKeyDown={keys}
      onBlur={() => {
        // Whoever leaves with a place in hand has set it down.
        if (siteView.getState().moving?.by === "keys") commands.commit();
      }}
    >
      <Canvas widthPx={frame.widthPx} heightPx={frame.heightPx} className="map-base" paint={paintBase} />
      <Canvas widthPx={frame.widthPx} heightPx={frame.heightPx} className="map-top" paint={paintTop} />
      {chosen && (
        <i
          className={picture.moving ? "map-chosen moving" : "map-chosen"}
          data-place={chosen.id}
          aria-hidden="true"
          style={{
            transform: `translate(${mapX(frame, chosen.eastM)}px, ${mapY(frame, chosen.northM)}px)`,
          }}
        />
      )}
    </div>
  );
}
