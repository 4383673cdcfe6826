import { beforeAll, describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { booklets, daySheet, type Page, SHEET_KINDS, sheetPaper } from "../../../src/exchange/index.ts";
import { LEFT, RIGHT } from "../../../src/exchange/paper/cuff.ts";
import { extentOf, type LinesMark, type Mark, type RectMark } from "../../../src/exchange/paper/page.ts";
import { textWidth } from "../../../src/exchange/paper/type.ts";
import { keysOf } from "../../../src/kernel/index.ts";
import { clock } from "../../../src/words/index.ts";
import { crowdedPlan, samplePlan } from "../samplePlan.ts";
import { collisions, crossings, overflows, textsOf } from "./reading.ts";
import { factsOf, STAMP } from "./sheets/facts.ts";

/** Where things stand on the pages of one small plan, by law: what is in a frame stays in it, rows have their places, maps and scales are true. */

const plan = samplePlan();
let cuff: readonly Page[] = [];
let sheets: readonly Page[] = [];
let facts: Awaited<ReturnType<typeof factsOf>>;

beforeAll(async () => {
  facts = await factsOf(plan);
  cuff = booklets(plan, facts.verdict, { day: facts.day, lateTable: facts.lateTable }).pages;
  sheets = keysOf(SHEET_KINDS).flatMap((kind) => sheetPaper(kind, facts, STAMP, { paper: "a4" }).pages);
}, 0);

const rectsOf = (page: Page): RectMark[] => page.marks.filter((mark) => mark.kind === "rect");
const linesOf = (page: Page): LinesMark[] => page.marks.filter((mark) => mark.kind === "lines");

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const boxOf = ({ x, y, w, h }: RectMark): Box => ({ left: x, right: x + w, top: y, bottom: y + h });

/** Texts that begin inside a frame and end outside of the smallest such one, in words. */
function spilt(page: Page): string[] {
  const frames = rectsOf(page)
    .filter(({ lineMm, w }) => lineMm > 0 && w < page.widthMm - 30)
    .map(boxOf);
  return textsOf(page).flatMap((mark) => {
    const right = mark.x + textWidth(mark.text, mark);
    const [frame] = frames
      .filter(
        (one) => one.left <= mark.x && mark.x < one.right && one.top < mark.y - 0.4 && mark.y <= one.bottom,
      )
      .toSorted((a, b) => a.right - a.left - (b.right - b.left));
    return frame && right > frame.right + 0.05 ? [`${page.name}: "${mark.text}" leaves its frame`] : [];
  });
}

const taskPages = (): Page[] => cuff.filter((page) => textsOf(page).some(({ text }) => text === "DONE BY"));

/** The texts that say exactly `words`, as places. */
const placesOf = (page: Page, words: RegExp): string[] =>
  textsOf(page)
    .filter(({ text }) => words.test(text))
    .map(({ x, y }) => `${x.toFixed(2)} ${y.toFixed(2)}`);

describe("the room that a mark takes", () => {
  it("is of all its lines, with half their width around", () => {
    const mark: Mark = {
      kind: "lines",
      segments: [
        [3, 9, 5, 2],
        [1, 4, 8, 6],
      ],
      widthMm: 1,
      ink: 0,
    };
    expect(extentOf(mark)).toEqual({ left: 0.5, top: 1.5, right: 8.5, bottom: 9.5 });
  });
});

describe("the pages of a small plan", () => {
  it("have no text over another, through a line, out of its frame or off the page", () => {
    expect(cuff.length).toBeGreaterThan(20);
    const crowded = crowdedPlan();
    const long = booklets(crowded, check(crowded, crowded.schedule)).pages;
    expect(crossings(long)).toEqual([]);
    const all = [...cuff, ...long, ...sheets, ...daySheet(plan, facts.verdict, STAMP, "a4", facts.day).pages];
    expect(overflows(all)).toEqual([]);
    expect(collisions(all)).toEqual([]);
    expect(crossings(cuff)).toEqual([]);
    expect(all.flatMap(spilt)).toEqual([]);
  });

  it("have every text of a cuff page between its margins", () => {
    for (const page of cuff)
      for (const mark of textsOf(page)) {
        expect(mark.x, `${page.name}: ${mark.text}`).toBeGreaterThanOrEqual(LEFT - 0.01);
        expect(mark.x + textWidth(mark.text, mark), `${page.name}: ${mark.text}`).toBeLessThanOrEqual(
          RIGHT + 0.01,
        );
      }
  });
});

describe("the rows on top of a task's page", () => {
  it("stand in the same place on every page", () => {
    const pages = taskPages();
    expect(pages.length).toBeGreaterThan(8);
    for (const words of [/^START$/, /^DONE BY$/, /^HOME IF$/, /^under %$/, /^NEXT$/, /^TURN THE PAGE$/]) {
      const places = new Set(pages.flatMap((page) => placesOf(page, words).slice(0, 1)));
      expect(places.size, `${words}: ${[...places].join(", ")}`).toBe(1);
    }
  });

  it("have what comes next under the last heavy rule from margin to margin, and nothing else of the page there but its number", () => {
    for (const page of taskPages()) {
      const rules = linesOf(page).flatMap(({ segments, widthMm }) =>
        widthMm === 0.8 ? segments.filter(([x1, , x2]) => x1 === LEFT && x2 === RIGHT) : [],
      );
      for (const [, y1, , y2] of rules) expect(y2, page.name).toBe(y1);
      const lastY = Math.max(...rules.map(([, y]) => y));
      const [next] = textsOf(page).filter(({ text }) => /^(NEXT|TURN THE PAGE)$/.test(text));
      expect(next!.y, page.name).toBeGreaterThan(lastY);
      const first = textsOf(page)
        .filter(({ y }) => y > lastY)
        .toSorted((a, b) => a.y - b.y)[0];
      expect(first!.y, page.name).toBe(next!.y);
    }
  });

  it("are three frames of one height side by side from margin to margin, each with its word and its moment in the middle", () => {
    for (const page of taskPages()) {
      const label = textsOf(page).find(({ text }) => text === "START")!;
      const first = rectsOf(page)
        .map(boxOf)
        .find(
          (one) => one.left < label.x && label.x < one.right && one.top < label.y && label.y < one.bottom,
        )!;
      const frames = rectsOf(page)
        .filter(({ h, y }) => Math.abs(y + h / 2 - (first.top + first.bottom) / 2) < 0.01 && h > 9)
        .map((one) => ({ ...boxOf(one), half: one.lineMm / 2 }));
      expect(frames).toHaveLength(3);
      expect(frames[0]!.left - frames[0]!.half).toBeCloseTo(LEFT, 6);
      expect(frames[2]!.right + frames[2]!.half).toBeCloseTo(RIGHT, 6);
      const gaps = [0, 1].map(
        (k) => frames[k + 1]!.left - frames[k + 1]!.half - frames[k]!.right - frames[k]!.half,
      );
      expect(gaps[0]).toBeCloseTo(gaps[1]!, 6);
      for (const frame of frames) {
        const middle = (frame.left + frame.right) / 2;
        const inside = textsOf(page).filter(
          ({ x, y }) => frame.left < x && x < frame.right && frame.top < y && y < frame.bottom,
        );
        expect(inside).toHaveLength(2);
        const [word, moment] = inside.toSorted((a, b) => a.y - b.y);
        expect(word!.x + textWidth(word!.text, word!) / 2).toBeCloseTo(middle, 6);
        // The box for the actual minute belongs to the moment.
        const box = rectsOf(page).find(
          (one) =>
            one.h < 9 &&
            frame.left < one.x &&
            one.x < frame.right &&
            frame.top < one.y &&
            one.y < frame.bottom,
        );
        const right = box ? box.x + box.w : moment!.x + textWidth(moment!.text, moment!);
        expect((moment!.x + right) / 2).toBeCloseTo(middle, 6);
      }
    }
  });
});

describe("a map on paper", () => {
  it.each([
    ["Site map", "^[\\d,.]+ (m|km)$"],
    ["Tasks by station, EVA 1", "^[\\d,.]+ (m|km)$"],
  ])("is true to scale, north up, with a bar as long as it says: %s", (title, length) => {
    const page = sheets.find(({ name }) => name.startsWith(title))!;
    const [lander] = rectsOf(page).filter(({ fill, w, h }) => fill === 0 && w === h);
    const middle = ({ x, y, w, h }: RectMark) => ({ x: x + w / 2, y: y + h / 2 });
    const squares = rectsOf(page)
      .filter(({ fill, w, h }) => fill === 1 && w === h)
      .map(middle);
    const home = middle(lander!);
    const [farthest] = plan.site.places.toSorted((a, b) => b.northM - a.northM);
    const mmPerM = (home.y - Math.min(...squares.map(({ y }) => y))) / farthest!.northM;
    expect(mmPerM).toBeGreaterThan(0);
    const asked = plan.site.places.filter(({ kind }) => kind !== "lander");
    expect(squares).toHaveLength(asked.length);
    for (const { eastM, northM, name } of asked) {
      const [x, y] = [home.x + eastM * mmPerM, home.y - northM * mmPerM];
      expect(
        squares.some((one) => Math.hypot(one.x - x, one.y - y) < 0.01),
        name,
      ).toBe(true);
      // Its name stands beside it.
      const named = textsOf(page).filter(({ text }) => text.startsWith(name));
      const near = named.some(
        (mark) => Math.abs(mark.y - y) < 6 && mark.x < x + 8 && mark.x + textWidth(mark.text, mark) > x - 8,
      );
      expect(near, name).toBe(true);
    }
    const said = textsOf(page).find(
      (mark) => new RegExp(length).test(mark.text) && mark.sizePt === 7 && mark.bold,
    )!;
    const metres = Number.parseFloat(said.text.replace(",", "")) * (said.text.endsWith("km") ? 1000 : 1);
    const bar = linesOf(page)
      .flatMap(({ segments }) => segments)
      .filter(([x1, y1, x2, y2]) => y1 === y2 && x1 === said.x && Math.abs(y1 - said.y) < 4 && x2 > x1);
    expect(bar.map(([x1, , x2]) => x2 - x1)).toEqual([expect.closeTo(metres * mmPerM, 6)]);
    const north = textsOf(page).find(({ text }) => text === "N")!;
    const arrow = linesOf(page)
      .flatMap(({ segments }) => segments)
      .filter(([x1, y1]) => Math.hypot(x1 - north.x, y1 - north.y) < 7 && y1 > north.y);
    // Up from its foot to one point, from which both barbs hang.
    const [shaft] = arrow;
    expect(shaft![0]).toBe(shaft![2]);
    expect(shaft![3]).toBeLessThan(shaft![1]);
  });
});

describe("the day timeline", () => {
  it("has every task of an EVA in a frame from its start to its end on the scale over it", () => {
    const { pages } = daySheet(plan, facts.verdict, STAMP, "a4", facts.day);
    for (const { eva, startS, task } of plan.schedule.placements) {
      if (eva === null) continue;
      const endS = startS + plan.tasks.find(({ id }) => id === task)!.duration.likelyS;
      const isThere = pages.some((page) =>
        scalesOf(page).some((scale) => framedOn(page, scale, startS, endS)),
      );
      expect(isThere, `${task} ${clock(startS)}`).toBe(true);
    }
  });
});

interface Scale {
  readonly y: number;
  xOf(atS: number): number;
}

/** The MET scales of a day sheet, each read off two of its ticks. */
function scalesOf(page: Page): Scale[] {
  const heads = textsOf(page).filter(({ text }) => text === "MET");
  return heads.flatMap(({ y }) => {
    const ticks = textsOf(page)
      .filter((mark) => mark.y === y && /^\d+:\d\d$/.test(mark.text))
      .map((mark) => ({ x: mark.x, atS: secondsOf(mark.text) }));
    const [a, b] = [ticks[0], ticks.at(-1)];
    if (!a || !b || a === b) return [];
    const perS = (b.x - a.x) / (b.atS - a.atS);
    // A label stands a little right of its tick.
    const mark = linesOf(page)
      .flatMap(({ segments }) => segments)
      .filter(([x1, y1, x2]) => x1 === x2 && Math.abs(y1 - y) < 2 && x1 <= a.x && a.x - x1 < 1.5)
      .toSorted((one, two) => two[0] - one[0])[0]!;
    return [{ y, xOf: (atS: number) => mark[0] + (atS - a.atS) * perS }];
  });
}

const secondsOf = (text: string): number => {
  const [h = 0, m = 0] = text.split(":").map(Number);
  return h * 3600 + m * 60;
};

function framedOn(page: Page, { y, xOf }: Scale, startS: number, endS: number): boolean {
  return page.marks.some(
    (mark: Mark) =>
      mark.kind === "rect" &&
      mark.y > y &&
      Math.abs(mark.x - xOf(startS)) < 0.02 &&
      Math.abs(mark.x + mark.w - xOf(endS)) < 0.02 &&
      mark.lineMm >= 0.3,
  );
}
