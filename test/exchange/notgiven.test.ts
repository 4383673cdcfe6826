import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { reportJson, reportTable } from "../../src/cli/report.ts";
import { EXPORTS, everything } from "../../src/exchange/export/index.ts";
import { dayPage } from "../../src/exchange/page/index.ts";
import { beforePrint, booklets, stampOf } from "../../src/exchange/index.ts";
import { toSvgPages } from "../../src/exchange/paper/svg.ts";
import { printedDay } from "../../src/exchange/paper/leaving/printedday.ts";
import { scheduleCsv } from "../../src/exchange/schedulecsv.ts";
import { gaugeRows } from "../../src/exchange/paper/sheets/gauges.ts";
import { evasOut, givenOf } from "../../src/exchange/paper/sheets/given.ts";
import { instant } from "../../src/kernel/index.ts";
import { given, type Plan, parse, stillToGive, TO_GIVE } from "../../src/plan/index.ts";
import { blankPlan } from "../../src/session/blank.ts";
import { sunDegOver } from "../../src/terrain/index.ts";
import { notGivenWords, skyUnknownWords } from "../../src/words/index.ts";
import { overflows, wordsOf } from "./paper/reading.ts";
import { samplePlan } from "./samplePlan.ts";

/** A begun plan with one task on its EVA: nobody has said where and when it lands, who goes out and in what. */
function begun(): Plan {
  const blank = blankPlan(Date.UTC(2031, 3, 5, 6));
  const task = {
    id: "look",
    name: "Look about",
    kind: "survey",
    place: "lander",
    duration: { likelyS: 600 },
  };
  const placement = { task: "look", eva: "eva-1", crew: ["ev1"], startS: instant(9000) };
  const read = parse({ ...blank, tasks: [task], schedule: { placements: [placement] } });
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

const WORDS = "18 values that nobody has given (New site, Stay, EV1, EV2, Suit 1 and Suit 2)";

describe("what nobody has given", () => {
  const plan = begun();
  const verdict = check(plan, plan.schedule);

  it("is counted and named, and the sky with it is unknown", () => {
    expect(stillToGive(plan)).toHaveLength(2 + 2 + 2 + 2 * TO_GIVE.suits.length);
    expect(notGivenWords(plan)).toBe(WORDS);
    expect(skyUnknownWords(plan)).toBe("until latitude, longitude and touchdown are given");
    const told = { ...plan, site: given(plan.site, ["latDeg"]), stay: given(plan.stay, ["touchdownUtc"]) };
    expect(skyUnknownWords(told)).toBe("until longitude is given");
    expect(skyUnknownWords({ ...told, site: given(told.site, ["lonDeg"]) })).toBeNull();
    expect(skyUnknownWords({ ...plan, body: { ...plan.body, ephemeris: "none" } })).toBe("on this body");
  });

  it("leaves the sun unknown just where words say why", () => {
    const bodies = [plan.body, { ...plan.body, ephemeris: "none" as const }];
    for (const body of bodies)
      for (const fields of [[], ["latDeg"], ["lonDeg"], ["latDeg", "lonDeg"]])
        for (const moments of [[], ["touchdownUtc"], ["lengthS"]]) {
          const some = { ...plan, body, site: given(plan.site, fields), stay: given(plan.stay, moments) };
          expect(sunDegOver(some, 0) === null).toBe(skyUnknownWords(some) !== null);
        }
  });

  it("is told wherever figures that rest on it leave the tool", () => {
    expect(beforePrint(plan, verdict)[0]).toMatchObject({
      words: `figures rest on ${WORDS}`,
      at: { screen: "setup", page: "site" },
    });
    expect(stampOf(plan, verdict, 0).notCleared).toBe(`it rests on ${WORDS}.`);
    const broken = { ...verdict, score: { ...verdict.score, breaches: 2 } };
    expect(stampOf(plan, broken, 0).notCleared).toBe(
      `this plan has 2 breaches and is not fit to be flown. It rests on ${WORDS}.`,
    );
    expect(dayPage(plan, verdict, new Map(), 0)).toContain(`Its figures rest on ${WORDS}.`);
    expect(reportTable(plan, verdict)).toContain(`rests on  ${WORDS}`);
    expect(reportJson(plan, verdict)).toMatchObject({ toGive: stillToGive(plan) });
    const glance = toSvgPages(booklets(plan, verdict))[0]!
      .replace(/<[^>]*>/g, " ")
      .replace(/\s+/g, " ");
    expect(glance).toContain("Figures rest on 18 values that nobody has given");
  });

  it("is no figure on paper: no walk home from a place that lies nowhere yet, no gauge of a stock, no emergency oxygen", () => {
    const sound = samplePlan();
    const [worn, ...more] = sound.suits;
    const open = {
      ...sound,
      site: {
        ...sound.site,
        places: sound.site.places.map((place) =>
          place.id === "rim" ? { ...place, toGive: ["eastM" as const, "northM" as const] } : place,
        ),
      },
      suits: [{ ...worn!, toGive: ["oxygenKg" as const, "emergencyOxygenS" as const] }, ...more],
    };
    const { pages } = booklets(
      { ...open, revision: { name: "Revision twelve of three", note: "" } },
      check(open),
      {
        crew: ["ev1"],
        printedMs: Date.UTC(2031, 3, 5),
      },
    );
    expect(overflows(pages)).toEqual([]);
    const all = pages.map((page) => wordsOf(page));
    for (const words of all) expect(words).toContain(" · 4 not given · ");
    const there = all.filter((words) => words.includes(" AT North rim "));
    expect(there.length).toBeGreaterThan(0);
    for (const words of there) expect(words).toMatch(/HOME unknown|HOME .*unknown/);
    for (const words of all) expect(words).not.toMatch(/NEXT [^.]*North rim \d{3}°/);
    expect(all.join()).toContain("way unknown");
    for (const words of all) expect(words).not.toMatch(/HOME FROM.*North rim \d+ min/);
    const back = all.filter((words) => words.includes("HOME FROM"));
    for (const words of back) expect(words).toMatch(/OXYGEN emergency unknown.*FARTHEST you: unknown/);
    const hatch = all.find((words) => words.includes("GO IF at least"));
    expect(hatch).toMatch(/O2 \? CO2 \? WATER \? BATT \?/);
    const given = givenOf({ plan: open, verdict: check(open), day: printedDay(open), sunDeg: () => null });
    const [out] = evasOut(given);
    for (const { crew, gauges } of gaugeRows(given, out!.eva)) {
      const oxygen = gauges.find(({ consumable }) => consumable === "oxygen");
      if (crew === "ev1") expect(oxygen).toMatchObject({ left: null, least: null });
      else expect(oxygen?.left).not.toBeNull();
    }
  });

  it("makes no moment of universal time", () => {
    const [, row] = scheduleCsv(plan).trim().split(/\r?\n/);
    expect(row).toContain("9000,9600,,,");
    expect(dayPage(plan, verdict, new Map(), 0)).toContain("touchdown – UTC");
    const calendar = EXPORTS.find(({ id }) => id === "calendar")!;
    expect(calendar.disabledReason?.(plan)).toBe("nobody has given the touchdown");
    const from = { plan, verdict, reasons: new Map(), lines: [], madeMs: 0 };
    expect(calendar.make(from)).not.toContain("BEGIN:VEVENT");
    const files = Object.keys(unzipSync(everything(from)));
    expect(EXPORTS.map(({ file }) => file).filter((file) => !files.includes(file))).toEqual([
      "schedule.ics",
      "site.geojson",
      "site.kml",
    ]);
    const told = { ...plan, stay: given(plan.stay, ["touchdownUtc"]) };
    expect(calendar.disabledReason?.(told)).toBeNull();
    expect(calendar.make({ ...from, plan: told })).toContain("DTSTART:20310405T083000Z");
    const kml = EXPORTS.find(({ id }) => id === "kml")!;
    expect(kml.disabledReason?.(told)).toBe("nobody has given where on the body the site lies");
    expect(kml.disabledReason?.({ ...told, site: given(plan.site, ["latDeg", "lonDeg"]) })).toBeNull();
  });
});
