// @vitest-environment jsdom
import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { dayPage } from "../../../src/exchange/page/index.ts";
import { PAGE_COLOURS } from "../../../src/exchange/page/style.ts";
import { marginCells } from "../../../src/exchange/paper/day/summary.ts";
import { planState } from "../../../src/exchange/planstate.ts";
import { fingerprint, type Plan, shortFingerprint, signedValue } from "../../../src/plan/index.ts";
import { clock, findingWords, taskName, taskNumber } from "../../../src/words/index.ts";
import { contrast, rgb } from "../../screens/theme/colour.ts";
import { samplePlan } from "../samplePlan.ts";

const MADE_MS = Date.UTC(2031, 0, 2, 3, 4, 5);
const REASONS = new Map([
  ["late-look", { task: "late-look", sentence: "No room.", fitsAt: null, slides: false }],
]);

function pageOf(plan: Plan, reasons = REASONS): Document {
  return new DOMParser().parseFromString(
    dayPage(plan, check(plan, plan.schedule), reasons, MADE_MS),
    "text/html",
  );
}

const cells = (row: Element): string[] =>
  [...row.querySelectorAll("td")].map((cell) => cell.textContent ?? "");

function rowsOf(page: Document, caption: string): string[][] {
  const table = [...page.querySelectorAll("table")].find((one) => one.caption?.textContent === caption);
  if (!table) throw new Error(`no table ${caption}`);
  return [...table.querySelectorAll("tbody tr")].map(cells);
}

describe("the page of the day", () => {
  const plan = samplePlan();
  const verdict = check(plan, plan.schedule);

  it("asks for nothing and runs nothing", () => {
    const page = pageOf(plan);
    expect(
      page.querySelectorAll("script,link,img,iframe,object,embed,base,form,video,audio,use,image,a"),
    ).toHaveLength(0);
    const policy = page.querySelector('meta[http-equiv="Content-Security-Policy"]')?.getAttribute("content");
    expect(policy).toBe("default-src 'none'; style-src 'unsafe-inline'");
    for (const one of page.querySelectorAll("*"))
      for (const { name, value } of one.attributes) {
        expect(name).not.toMatch(/^on|^href$|^src$|^style$/);
        if (name === "fill") expect(value).toMatch(/^(none|url\(#[a-z]+\))$/);
      }
    expect(page.querySelector("style")?.textContent).not.toMatch(/@import|url\(/);
  });

  it("says every placed task at the start that the judge tested, with who, and its number", () => {
    const page = pageOf(plan);
    const rows = plan.evas.flatMap(({ name }) => rowsOf(page, `${name} in time`));
    const placed = plan.schedule.placements.filter(({ eva }) => eva !== null);
    for (const { task, startS } of placed) {
      const row = rows.find((one) => one[3] === taskNumber(plan, task));
      expect(row?.[0]).toBe(clock(startS));
      expect(row?.[4]).toContain(taskName(plan, task));
    }
    expect(rows.filter((row) => row[3] !== "")).toHaveLength(placed.length);
    for (const { eva, span } of verdict.outings) {
      const named = plan.evas.find(({ id }) => id === eva)?.name ?? "";
      const own = rowsOf(page, `${named} in time`);
      expect([own[0]?.[0], own.at(-1)?.[1]]).toEqual([clock(span.startS), clock(span.endS)]);
    }
  });

  it("has the margins in paper's figures, and bars no longer than they are", () => {
    const rows = rowsOf(pageOf(plan), "Left above the reserve at the least, as a share of the stock");
    expect(rows).toEqual(verdict.outings.map((outing) => marginCells(plan, verdict, outing)));
    const bars = [...pageOf(plan).querySelectorAll(".bar .has")].map((one) =>
      Number(one.getAttribute("width")),
    );
    expect(bars).toEqual(verdict.margins.map(({ margin }) => Math.floor(margin * 100)));
  });

  it("has every finding in the judge's words, and says of a breach that the day is not cleared", () => {
    const [first, ...others] = plan.schedule.placements;
    if (!first) throw new Error("nothing placed");
    const early = {
      ...plan,
      schedule: { placements: [{ ...first, startS: plan.schedule.placements[1]!.startS }, ...others] },
    };
    const found = check(early, early.schedule);
    expect(found.score.breaches).toBeGreaterThan(0);
    const page = pageOf(early);
    expect(page.querySelector(".barred")?.textContent).toContain("is not fit to be flown");
    const said = rowsOf(page, "What breaks a rule or holds by little, at likely durations").map(
      (row) => row[1],
    );
    expect(said.toSorted()).toEqual(found.findings.map((one) => findingWords(early, one)).toSorted());
    expect(pageOf(plan).querySelector(".cleared")?.textContent).toContain("No breach at likely durations");
  });

  it("says why a task is left out where that is known, and where not that it is not worked out", () => {
    const done = new Set(plan.schedule.placements.map(({ task }) => task));
    const out = plan.tasks.filter(({ id }) => !done.has(id));
    expect(out.length).toBeGreaterThan(0);
    const reasons = new Map(
      out.map(({ id }) => [id, { task: id, sentence: `Why ${id}.`, fitsAt: null, slides: false }]),
    );
    const why = (page: Document) => rowsOf(page, "Tasks that are not on the day line").map((row) => row[3]);
    expect(why(pageOf(plan, reasons)).toSorted()).toEqual(out.map(({ id }) => `Why ${id}.`).toSorted());
    expect(why(pageOf(plan, new Map()))).toEqual(out.map(() => "Not worked out."));
  });

  it("carries revision, fingerprint and the safety line, and is the same bytes for the same plan", () => {
    const named = { ...plan, revision: { name: "Rev 3", note: "For the review." } };
    const text = pageOf(named).body.textContent ?? "";
    for (const words of [
      "Rev 3",
      "For the review.",
      shortFingerprint(named),
      fingerprint(named),
      planState(named, MADE_MS),
    ])
      expect(text).toContain(words);
    expect(text).toContain("Planning and training aid. Flight rules and the authorities in charge decide.");
    const again = structuredClone(named);
    expect(dayPage(again, check(again, again.schedule), REASONS, MADE_MS)).toBe(
      dayPage(named, check(named, named.schedule), REASONS, MADE_MS),
    );
  });

  it("says what people say of it: whose sign-off holds, whose a change undid, and open comments; nothing where nobody did", () => {
    const about = { kind: "rule", id: "walkback" } as const;
    const head = { about, by: "B. Surgeon", atUtc: "2031-03-31T08:30:00Z" };
    const value = signedValue(plan, about) ?? "";
    const said: Plan = {
      ...plan,
      signoffs: [
        { ...head, id: "s1", value },
        { ...head, id: "s2", by: "A", value: "0".repeat(64) },
      ],
      comments: [
        { ...head, id: "c1", text: "Is it <fast>?", settled: false },
        { ...head, id: "c2", text: "Done.", settled: true },
      ],
    };
    const page = pageOf(said);
    expect(rowsOf(page, "Sign-offs, under names as they were typed")).toEqual([
      ["rule walkback", "Signed by B. Surgeon, 31 Mar 2031 08:30 UTC."],
      ["rule walkback", "Changed since it was signed by A, 31 Mar 2031 08:30 UTC."],
    ]);
    expect(rowsOf(page, "Comments that are open").map((row) => row[1])).toEqual(["Is it <fast>?"]);
    expect(pageOf(plan).body.textContent).not.toContain("Said of it");
  });

  it("shows hostile names as the signs that they are made of", () => {
    const bad = `</style></title><script>x()</script><img src=x onerror=x()>"'&amp;{{1}}\u202etxt`;
    const hostile: Plan = {
      ...plan,
      title: bad,
      revision: { name: bad, note: bad },
      site: { ...plan.site, name: bad, places: plan.site.places.map((one) => ({ ...one, name: bad })) },
      crew: plan.crew.map((one) => ({ ...one, name: bad })),
      evas: plan.evas.map((one) => ({ ...one, name: bad })),
      tasks: plan.tasks.map((one) => ({ ...one, name: bad, number: `${bad}${one.id}` })),
    };
    const reasons = new Map(
      plan.tasks.map(({ id }) => [id, { task: id, sentence: bad, fitsAt: null, slides: false }]),
    );
    const page = pageOf(hostile, reasons);
    const plain = pageOf(plan);
    const names = (of: Document) => new Set([...of.querySelectorAll("*")].map(({ tagName }) => tagName));
    expect([...names(page)].filter((one) => !names(plain).has(one))).toEqual([]);
    const shown = bad.replace("\u202e", "U+202E");
    expect(page.querySelector("h1")?.textContent).toBe(shown);
    expect(page.title).toContain(shown);
    expect(page.documentElement.outerHTML).not.toContain("\u202e");
  });

  it("draws a block where its task stands in time, the ribbon farther out the longer the walk home", () => {
    const svg = pageOf(plan).querySelector(".line svg");
    const corners = [...(svg?.querySelectorAll("path.block") ?? [])].map((one) =>
      [...(one.getAttribute("d") ?? "").matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(
        ([, x, y]) => [Number(x), Number(y)] as const,
      ),
    );
    const [eva] = plan.evas;
    const outing = verdict.outings.find((one) => one.eva === eva?.id);
    if (!outing) throw new Error("nobody goes out");
    const work = outing.stretches.filter(({ kind }) => kind === "task");
    const { startS, endS } = outing.span;
    // 64 units for the names, 12 free at the right, of 1200: time runs evenly over the 1124 between.
    work.forEach(({ span }, k) => {
      const xs = corners[k]?.map(([x]) => x) ?? [];
      expect(Math.min(...xs)).toBeCloseTo(64 + (1124 * (span.startS - startS)) / (endS - startS), 0);
      expect(Math.max(...xs)).toBeCloseTo(64 + (1124 * (span.endS - startS)) / (endS - startS), 0);
    });
    const home = Number(/M64 ([\d.]+)/.exec(svg?.querySelector("path.home")?.getAttribute("d") ?? "")?.[1]);
    const away = work.map((_, k) => home - Math.max(...(corners[k]?.map(([, y]) => y) ?? [])));
    const reach = verdict.reach.find((one) => one.eva === eva?.id && one.crew === outing.crew);
    const walks = work.map(({ span }) =>
      Math.min(
        ...(reach?.points ?? [])
          .filter(({ atS }) => span.startS <= atS && atS <= span.endS)
          .map(({ value }) => value),
      ),
    );
    const longest = walks.indexOf(Math.max(...walks));
    expect(away.indexOf(Math.max(...away))).toBe(longest);
    expect(away[longest]).toBeGreaterThan(0);
  });
});

describe("its colours", () => {
  it.each(["light", "dark"] as const)("can be read, %s", (theme) => {
    const of = PAGE_COLOURS[theme];
    for (const ground of ["paper", "raised"] as const)
      for (const ink of ["ink", "soft", "accent", "breach", "tight", "open"] as const)
        expect(contrast(rgb(of[ink]), rgb(of[ground])), `${ink} on ${ground}`).toBeGreaterThanOrEqual(4.5);
    expect(contrast(rgb(of.breach), rgb(of["breach-wash"]))).toBeGreaterThanOrEqual(4.5);
    for (const kind of ["sampling", "deployment", "survey", "upkeep", "ribbon"] as const)
      expect(contrast(rgb(of.ink), rgb(of[kind])), kind).toBeGreaterThanOrEqual(4.5);
    for (const line of ["ink", "breach", "strong"] as const)
      expect(contrast(rgb(of[line]), rgb(of.paper)), line).toBeGreaterThanOrEqual(3);
  });
});
