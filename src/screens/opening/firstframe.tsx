import type { Plan } from "../../plan/index.ts";
import type { Making } from "../viewstate.ts";
import { Safety } from "../parts/safety.tsx";
import { drawn } from "./drawn.ts";
import { MakingReady } from "./makingready.tsx";
import { sketchOf } from "./sketch.ts";

/** The day as the document has it, painted before anything is worked out: EVAs, lanes, tasks by name. It says that nobody has judged it. */
export function FirstFrame({ plan, making }: { readonly plan: Plan; readonly making: Making }) {
  const draw = (main: HTMLElement | null): void => {
    const sketch = sketchOf(plan);
    if (sketch) main?.replaceChildren(...drawn(sketch));
  };
  return (
    <div className="app first-frame">
      <header className="first-head">
        <b>{plan.title}</b>
        <MakingReady {...making} />
      </header>
      <main className="first-lanes" aria-busy="true" ref={draw} />
      <Safety />
    </div>
  );
}
