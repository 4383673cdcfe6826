import type { BenchReason, Verdict } from "../../answers/index.ts";
import { fingerprint, type Plan, shortFingerprint } from "../../plan/index.ts";
import { clock, counted, lasting, notGivenWords, percent, touchdownMs, utcDate } from "../../words/index.ts";
import { STANDING } from "../paper/cuff.ts";
import { planState } from "../planstate.ts";
import { Markup, markup, type Part } from "./markup.ts";
import { HATCHINGS, ribbonOf } from "./ribbon.ts";
import { STYLE } from "./style.ts";
import {
  benchTable,
  findingsTable,
  marginsTable,
  remoteTable,
  remarkTables,
  scheduleTable,
} from "./tables.ts";

/**
 * The day as one page to be read by anybody: a whole HTML file of its own that asks for nothing, runs nothing and changes nothing.
 * `verdict` must be that of `plan` with its own schedule; `reasons` say why tasks are on the bench, as far as that is worked out.
 * `madeMs` is when it is written, milliseconds since 1970. The same plan, verdict, reasons and moment make the same text.
 */
export function dayPage(
  plan: Plan,
  verdict: Verdict,
  reasons: ReadonlyMap<string, BenchReason>,
  madeMs: number,
): string {
  const page = markup`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${plan.title}: the day to be read</title>
<style>${new Markup(STYLE)}</style>
</head>
<body>
${HATCHINGS}
${head(plan, verdict)}
<main>
${plan.evas.map((eva) => evaPart(plan, verdict, eva))}
${remotePart(plan)}
<h2>Margins</h2>
${marginsTable(plan, verdict)}
<h2>Findings</h2>
${findingsTable(plan, verdict)}
<h2>Left out</h2>
${benchTable(plan, reasons)}
${remarksPart(plan)}
</main>
${foot(plan, madeMs)}
</body>
</html>
`;
  return page.text;
}

function head(plan: Plan, verdict: Verdict): Markup {
  const { revision } = plan;
  const epochMs = touchdownMs(plan);
  const { score, placed, mustPlaced, mustTotal, outings } = verdict;
  const cleared =
    score.breaches === 0
      ? markup`<p class="cleared">No breach at likely durations. The chances of the day are not on this page.</p>`
      : markup`<p class="barred">Not cleared: this plan has ${counted(score.breaches, "breach", "breaches")} and is not fit to be flown.</p>`;
  const open = notGivenWords(plan);
  const missing = mustTotal - mustPlaced;
  const figures: readonly (readonly [string, Part, Part])[] = [
    ["Tasks placed", placed, `of ${plan.tasks.length}`],
    [
      "Must-do placed",
      mustPlaced,
      missing === 0 ? `of ${mustTotal}, all` : `of ${mustTotal}, ${missing} left out`,
    ],
    ["Worth done", score.worth, "points"],
    [
      "Least margin",
      outings.length === 0 ? "none" : percent(score.worstMargin / 10_000, "down"),
      outings.length === 0 ? "nobody goes out" : "of a stock, above its reserve",
    ],
    ["Stay", lasting(plan.stay.lengthS, "given"), `touchdown ${utcDate(epochMs, 0)} UTC`],
    ["Revision", revision.name ?? "not named", shortFingerprint(plan)],
  ];
  return markup`<header>
<p class="kind">The day, to be read</p>
<h1>${plan.title}</h1>
<p class="under">${plan.site.name}. ${plan.crew.map(({ name }) => name).join(", ")}. Times are hours and minutes from touchdown (MET) and universal time (UTC).</p>
${revision.note === "" ? "" : markup`<p class="under">${revision.note}</p>`}
${cleared}
${open === null ? "" : markup`<p class="barred">Its figures rest on ${open}.</p>`}
<dl class="figures">${figures.map(([name, figure, more]) => markup`<div><dt>${name}</dt><dd>${figure} <small>${more}</small></dd></div>`)}</dl>
</header>`;
}

function evaPart(plan: Plan, verdict: Verdict, eva: Plan["evas"][number]): Markup {
  const outing = verdict.outings.find((one) => one.eva === eva.id);
  if (!outing) return markup`<h2>${eva.name}</h2><p>Nobody goes out on it.</p>\n`;
  const { startS, endS } = outing.span;
  return markup`<h2>${eva.name}: ${clock(startS)} to ${clock(endS)} MET</h2>
${ribbonOf(plan, verdict, eva) ?? ""}
${KEY}
${scheduleTable(plan, verdict, eva, outing)}
`;
}

const swatch = (kind: string, words: string): Markup =>
  markup`<li><svg viewBox="0 0 30 16" aria-hidden="true"><rect class="block ${kind}" x="1" y="1" width="28" height="14"/><rect x="1" y="1" width="28" height="14" fill="url(#${kind})"/></svg>${words}</li>`;

const KEY = markup`<ul class="key" aria-label="How it is drawn">${swatch("sampling", "sampling")}${swatch("deployment", "deployment")}${swatch("survey", "survey")}${swatch("upkeep", "upkeep")}<li><svg viewBox="0 0 30 16" aria-hidden="true"><rect class="block must" x="2" y="2" width="26" height="12" fill="none"/></svg>must-do: heavy frame</li><li><svg viewBox="0 0 30 16" aria-hidden="true"><path class="home" d="M0 8H30"/></svg>home: the farther from it, the longer the walk back</li><li><svg viewBox="0 0 30 16" aria-hidden="true"><path class="most" d="M0 8H30"/></svg>longest walk back allowed</li><li><svg viewBox="0 0 30 16" aria-hidden="true"><path class="rest" d="M4 3V12H26V3"/></svg>rest that the work limit needs</li></ul>`;

function remotePart(plan: Plan): Part {
  const table = remoteTable(plan);
  return table ? markup`<h2>Without crew</h2>${table}` : "";
}

function remarksPart(plan: Plan): Part {
  const tables = remarkTables(plan);
  return tables.length > 0 ? markup`<h2>Said of it</h2>${tables}` : "";
}

function foot(plan: Plan, madeMs: number): Markup {
  return markup`<footer>
<p class="safety">${STANDING}</p>
<p>This page shows one state of the plan and follows no later change: hold its fingerprint against that of the plan before it is relied on. A crew outside goes by its cuff checklist, not by this page.</p>
<p>Margins are rounded down, walks home up; starts and ends stand as the judge has tested them.</p>
<p>${planState(plan, madeMs)}.</p>
<p>Fingerprint (SHA-256 of the canonical plan): <code>${fingerprint(plan)}</code></p>
</footer>`;
}
