import "@fontsource-variable/encode-sans/wdth.css";
import "./screens/theme/tokens.css";
import "./screens/theme/base.css";
import "./screens/shell/shell.css";
import "./screens/day/day.css";
import "./screens/theme/print.css";
import "./screens/theme/beside.css";
import "./screens/firststeps/firststeps.css";
import "./screens/opening/opening.css";
import { archive, firstTheme, windows } from "./kept.ts";
import { READY, readyTextAhead } from "./readytext.ts";
import { drawn } from "./screens/opening/drawn.ts";
import { sketchOf } from "./screens/opening/sketch.ts";
import { isStoredPlan } from "./session/shelf/records.ts";

/**
 * Where the page begins: the day is drawn as its document has it before the program is there, which is large and comes behind it. Nothing
 * is read in earnest here and no fault told; whatever does not come soon is left to the program.
 */

/** The program does not wait longer for the first picture, ms. */
const PATIENCE_MS = 400;

let begun = false;

/** The text of the plan that the program will open. */
async function textToOpen(): Promise<string> {
  const wanted = new URLSearchParams(location.search).get("plan");
  if (wanted !== null && READY.includes(wanted)) return readyTextAhead(wanted);
  const slot = windows.lastOpen() ?? (await archive.lastOpen());
  const found = slot === null ? undefined : await archive.readPlan(slot);
  if (isStoredPlan(found)) return found.text;
  return readyTextAhead("demo");
}

async function glimpse(): Promise<void> {
  const sketch = sketchOf(JSON.parse(await textToOpen()));
  const room = document.querySelector(".first-lanes");
  // The program has begun to draw meanwhile.
  if (begun || !sketch || !room) return;
  const title = document.querySelector(".first-head > b");
  const status = document.querySelector(".first-head > [role=status]");
  if (title) title.textContent = sketch.title;
  if (status) status.textContent = "Not checked yet: the plan is being opened.";
  room.replaceChildren(...drawn(sketch));
  await new Promise((next) => requestAnimationFrame(() => setTimeout(next)));
}

document.documentElement.dataset["theme"] = firstTheme();
const late = new Promise((next) => setTimeout(next, PATIENCE_MS));
// What cannot be read is told by the program, which finds it too.
void Promise.race([glimpse().catch(() => undefined), late]).then(() => {
  begun = true;
  return import("./main.tsx");
});
