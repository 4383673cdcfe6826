import { describe, expect, it } from "vitest";
import { check, goIfs, homeIfs } from "../../src/check/index.ts";
import { booklets, toPdf } from "../../src/exchange/index.ts";
import { CAP, MM_PER_PT } from "../../src/exchange/paper/type.ts";
import type { Plan, Step } from "../../src/plan/index.ts";
import { clock, minutes, taskNumber } from "../../src/words/index.ts";
import { type PdfPage, readPdf, testFaces } from "../exchange/paper/readpdf.ts";
import { packedPlan } from "./packedPlan.ts";

/**
 * The cuff pages as they stand in the file: sizes, places and words are read from the PDF's own text boxes. Counted once on 200 plans; here on
 * some of them.
 */

const PLANS = Number(process.env["CUFF_PLANS"] ?? 8);
const FIRST = Number(process.env["CUFF_FIRST"] ?? 1);

/** Steps of every form, and long ones. */
function withSteps(plan: Plan, seed: number): Plan {
  const caution = { class: "warning" as const, text: "The lip breaks; falls kill. Stay 5 m back." };
  const steps = (k: number): Step[] =>
    [
      {
        text: `Sign ${k} one: read the gauge and call it`,
        cautions: [],
        blank: { of: "reading" as const, unit: "V" },
      },
      { text: `Sign ${k} two`, by: 2, cautions: [caution] },
      { when: "lamp red", text: "key back", cautions: [] },
      { text: `Sign ${k} three ${"over and over ".repeat((seed + k) % 9)}`.trim(), cautions: [] },
      { text: `Sign ${k} four`, by: 1, cautions: [], blank: { of: "photo" as const, unit: "" } },
    ].slice(0, 1 + ((seed + k) % 5));
  return {
    ...plan,
    tasks: plan.tasks.map((task, k) => ({
      ...task,
      steps: steps(k),
      cautions: k % 3 === 0 ? [{ text: "Grit cuts the seal: brush it off." }] : [],
    })),
  };
}

/** What no page may do, in words: text beyond the page's edges, or over other text. */
function faults({ boxes, widthMm, heightMm }: PdfPage): string[] {
  const inked = boxes.map((box) => ({ ...box, top: box.baseline - CAP * box.sizePt * MM_PER_PT }));
  return inked.flatMap((a, i) => [
    ...(a.left < 0 || a.top < 0 || a.right > widthMm || a.baseline > heightMm ? [`clipped: ${a.text}`] : []),
    ...inked
      .slice(i + 1)
      // A hair is rounding; runs of two files touch.
      .filter(
        (b) =>
          a.left < b.right - 0.05 &&
          b.left < a.right - 0.05 &&
          a.top < b.baseline - 0.05 &&
          b.top < a.baseline - 0.05,
      )
      .map((b) => `"${a.text}" over "${b.text}"`),
  ]);
}

describe("cuff pages in the file", () => {
  it(`clip and cover nothing, have every task once for each of its crew, and say what the judge says, on ${PLANS} plans`, async () => {
    const seen = { pages: 0, tasks: 0, steps: 0 };
    for (let seed = FIRST; seed < FIRST + PLANS; seed += 1) {
      const plan = withSteps(packedPlan(seed), seed);
      const verdict = check(plan);
      const paper = booklets(plan, verdict);
      const { pages } = await readPdf(await toPdf(paper, testFaces));
      const homes = homeIfs(plan);
      const told: string[] = [];
      pages.forEach((page, i) => {
        const { name } = paper.pages[i]!;
        expect(faults(page), `seed ${seed}, ${name}`).toEqual([]);
        seen.pages += 1;
        const [, crew, eva, what] = /^(\w+), (\w+): (\w+)$/.exec(name) ?? [];
        const words = page.boxes
          .map(({ text }) => text)
          .join(" ")
          .replace(/\s+/g, " ");
        if (what !== undefined && plan.tasks.some(({ id }) => id === what)) {
          told.push(`${crew} ${eva} ${what}`);
          seen.tasks += 1;
          const placement = plan.schedule.placements.find(({ task }) => task === what)!;
          const likelyS = plan.tasks.find(({ id }) => id === what)!.duration.likelyS;
          expect(words, name).toContain(`${taskNumber(plan, what)} ${what} `);
          expect(words, name).toContain(
            `START ${clock(placement.startS)} DONE BY ${clock(placement.startS + likelyS)} `,
          );
          const home = homes.find((one) => one.at === "task" && one.crew === crew && one.task === what)!;
          if (home.leastPct === null) expect(words, name).toContain("no HOME IF");
          else {
            const of = (pct: number | null): string => (pct === null ? "none" : `${pct}`);
            const { oxygen, co2, water, battery } = home.leastPct;
            expect(words, name).toContain(
              `HOME IF under % O2 ${of(oxygen)} CO2 ${of(co2)} WATER ${of(water)} BATT ${of(battery)}`,
            );
            if (home.walkbackS! > 0) expect(words, name).toContain(minutes(home.walkbackS!, "up"));
          }
        }
        if (what === undefined && name.endsWith(": egress")) {
          const [who, eva2] = name.split(/[,:] ?/);
          const go = goIfs(plan).find((one) => one.crew === who && one.eva === eva2)!.leastPct;
          expect(words, name).toContain(
            `O2 ${go.oxygen ?? "none"} CO2 ${go.co2 ?? "none"} WATER ${go.water ?? "none"} BATT ${go.battery ?? "none"}`,
          );
        }
        for (const box of page.boxes) {
          // Whosever they are, further lines too, and what is done only IF something is so.
          if (!/^Sign \d+ (one|two|three|four)|over and|^lamp red|^key back/.test(box.text)) continue;
          seen.steps += 1;
          expect(box.sizePt, name).toBeGreaterThanOrEqual(13.5);
        }
      });
      const due = plan.schedule.placements.flatMap(({ task, eva, crew }) =>
        crew.map((id) => `${id} ${eva} ${task}`),
      );
      expect(told.toSorted(), `seed ${seed}`).toEqual(due.toSorted());
    }
    expect(seen.pages).toBeGreaterThan(PLANS * 8);
    expect(seen.tasks).toBeGreaterThan(PLANS * 3);
    expect(seen.steps).toBeGreaterThan(PLANS * 4);
  });
});

describe("what the crew reads", () => {
  /** Minutes of arc that a height fills at a distance. */
  const arcmin = (mm: number, atMm: number): number => (2 * Math.atan(mm / 2 / atMm) * 180 * 60) / Math.PI;
  const capital = (sizePt: number): number => CAP * sizePt * MM_PER_PT;

  it("fills 16 minutes of arc at 60 cm with its least capitals, and 20 with those of steps", () => {
    // NUREG-0700 rev. 3, 11.4.1.5-1: capitals of 15 to 16 minutes of arc at the least, 20 preferred. 11 pt: 2.87 mm.
    expect(capital(11)).toBeCloseTo(2.87, 2);
    expect(arcmin(capital(11), 500)).toBeGreaterThan(19.7);
    expect(arcmin(capital(11), 600)).toBeGreaterThan(16);
    expect(arcmin(capital(13.5), 500)).toBeGreaterThan(24);
    expect(arcmin(capital(13.5), 600)).toBeGreaterThan(20);
  });
});
