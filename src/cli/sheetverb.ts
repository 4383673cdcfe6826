import type { Verdict } from "../answers/index.ts";
import { check } from "../check/index.ts";
import {
  daySheet,
  type Paper,
  SHEET_KINDS,
  type SheetFacts,
  sheetPaper,
  stampOf,
  toPdf,
} from "../exchange/index.ts";
import { keysOf } from "../kernel/index.ts";
import { moonSun } from "../physics/index.ts";
import type { Plan } from "../plan/index.ts";
import { counted, touchdownMs } from "../words/index.ts";
import { core, turnOf } from "./core.ts";
import { facesOnDisk } from "./faces.ts";
import { paperOf, readOptions } from "./options.ts";
import { checkOutput, writeOutput } from "./output.ts";
import { readPlan } from "./planinput.ts";
import { refuse } from "./refusal.ts";
import type { ExitCode, Streams } from "./verb.ts";

const KINDS = ["day", ...keysOf(SHEET_KINDS)] as const;
type Kind = (typeof KINDS)[number];
const PAPERS = ["a4", "letter", "cuff"] as const;

/** `sheet KIND plan.json --out file.pdf [--paper a4|letter|cuff] [--punched]`: a sheet of the plan's own schedule. */
export async function sheetVerb([given, ...args]: readonly string[], streams: Streams): Promise<ExitCode> {
  const kind =
    KINDS.find((one) => one === given) ??
    refuse(`say which sheet: lope sheet KIND plan.json, KIND one of ${KINDS.join(", ")}`);
  const { path, values } = readOptions(`sheet ${kind}`, args, {
    out: { type: "string" },
    paper: { type: "string", default: "a4" },
    punched: { type: "boolean" },
  });
  const size = paperOf(values.paper, PAPERS);
  if (kind === "day" && size === "cuff") refuse("the day timeline needs --paper a4 or letter");
  const out = await checkOutput(values.out, path, "file.pdf");
  const plan = await readPlan(path);
  const verdict = check(plan, plan.schedule);
  const paper =
    kind === "day"
      ? daySheet(plan, verdict, size === "letter" ? "letter" : "a4")
      : await made(kind, plan, verdict, { paper: size, punched: values.punched }, streams);
  await writeOutput(out, await toPdf(paper, facesOnDisk));
  streams.out(`${counted(paper.pages.length, "page")} written to ${out}\n`);
  if (verdict.score.breaches === 0) return 0;
  streams.err(
    `lope: the plan has ${counted(verdict.score.breaches, "breach", "breaches")}, and the paper says so; see lope check\n`,
  );
  return 1;
}

async function made(
  kind: Exclude<Kind, "day">,
  plan: Plan,
  verdict: Verdict,
  format: Parameters<typeof sheetPaper>[3],
  streams: Streams,
): Promise<Paper> {
  const needs: readonly string[] = SHEET_KINDS[kind].needs;
  const engine = core();
  const { schedule } = plan;
  const turn = turnOf(streams);
  const given: SheetFacts = {
    plan,
    verdict,
    day: await engine.printed(plan, {}, turn),
    sunDeg: sunOver(plan),
    shed: needs.includes("shed") ? await engine.shed(plan, { schedule }, turn) : undefined,
    reasons: needs.includes("reasons") ? await engine.benchReasons(plan, { schedule }) : undefined,
    walks: needs.includes("walks") ? await engine.siteWalks(plan, { schedule }) : undefined,
    ground: needs.includes("walks") ? await engine.siteGround(plan, {}) : undefined,
  };
  return sheetPaper(kind, given, stampOf(plan, verdict, Date.now()), format);
}

/** Elevation of the sun over the site, degrees; null where nobody knows where it stands. */
function sunOver({ body, site, stay }: Plan): (atS: number) => number | null {
  if (body.ephemeris !== "moon") return () => null;
  const { latDeg, lonDeg, elevationM } = site;
  const observer = { latDeg, lonDeg, radiusM: body.radiusM + elevationM };
  return (atS) => moonSun(touchdownMs({ stay }) + atS * 1000, observer).elevationDeg;
}
