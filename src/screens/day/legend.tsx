import { Canvas } from "../parts/canvas/canvas.tsx";
import { SIGN_PX, SIGNS } from "./signs.ts";

/** What the signs and patterns of the day line mean, each drawn as the line draws it. */
export function Legend() {
  return (
    <div className="legend">
      {SIGNS.map(({ title, signs }) => (
        <div key={title}>
          <b>{title}</b>
          <ul aria-label={title}>
            {signs.map(({ name, paint }) => (
              <li key={name}>
                <Canvas widthPx={SIGN_PX.width} heightPx={SIGN_PX.height} paint={paint} />
                <span>{name}</span>
              </li>
            ))}
          </ul>
        </div>
      ))}
    </div>
  );
}
