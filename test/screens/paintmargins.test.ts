import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { timeScale } from "../../src/editor/index.ts";
import { paintMargins } from "../../src/screens/margins/paintmargins.ts";
import { type MarginRow, marginRows } from "../../src/screens/margins/rows.ts";
import type { Brush } from "../../src/screens/parts/canvas/brush.ts";
import { percent } from "../../src/words/index.ts";
import { fixturePlan, fixtureSchedule } from "../editor/fixture.ts";

const plan = fixturePlan();
const schedule = fixtureSchedule();
const verdict = judgeFor(plan)(schedule);

/** What a strip writes, each text with its colour by name. */
function written(
  row: MarginRow,
  shown = { startS: 0, endS: 24 * 3600 },
): readonly (readonly [string, string])[] {
  const said: (readonly [string, string])[] = [];
  const state: Record<string, unknown> = {};
  const ctx = new Proxy(state, {
    get: (_, name: string) => {
      if (name === "fillText") return (text: string) => void said.push([text, String(state["fillStyle"])]);
      if (name === "measureText") return (text: string) => ({ width: 6 * text.length });
      return name in state ? state[name] : () => undefined;
    },
  }) as unknown as CanvasRenderingContext2D;
  const palette = new Proxy({}, { get: (_, name: string) => name }) as Brush["palette"];
  const brush: Brush = { ctx, palette, widthPx: 1200, heightPx: 60, hatch: (name) => name };
  const scale = timeScale(shown, 1200);
  paintMargins(brush, [{ row, top: 0, heightPx: 52 }], null, scale, 1);
  return said;
}

describe("what a strip says of its worst", () => {
  const least = marginRows(plan, schedule, verdict, "least").find((row) => row.kind === "least")!;

  it("stands in the colour of what is tight while something is left", () => {
    const [said] = written(least);
    expect(said![0]).toMatch(/^least \d+ % at /);
    expect(said![1]).toBe("tight");
  });

  it("has the margin at ingress beside it where the two differ, and is said to be there where they do not", () => {
    if (least.kind !== "least") throw new Error("no strip of a suit");
    const bent = (by: number) => ({
      ...least,
      outings: least.outings.slice(0, 1).map((tracks) =>
        tracks.slice(0, 1).map((track): (typeof tracks)[number] => {
          const [first, last] = [track.points[0]!, track.points.at(-1)!];
          const middle = instant((first.atS + last.atS) / 2);
          const half = (first.value + last.value) / 2 - by * track.stock;
          return { ...track, points: [first, { atS: middle, value: half }, last] };
        }),
      ),
    });
    const { points } = least.outings[0]![0]!;
    const outing = { startS: points[0]!.atS - 600, endS: points.at(-1)!.atS + 600 };
    const margin = percent(least.outings[0]![0]!.margin, "down");
    const dipped = written(bent(0.03), outing).map(([text]) => text);
    expect(dipped).toHaveLength(2);
    expect(dipped[0]).toMatch(/^least .* % at \d+:\d\d/);
    expect(dipped[1]).toBe(`${margin} at ingress`);
    expect(written(bent(0), outing).map(([text]) => text)).toEqual([`least ${margin} at ingress`]);
  });

  it("stands in the colour of a breach where less than nothing is left", () => {
    if (least.kind !== "least") throw new Error("no strip of a suit");
    const spent = {
      ...least,
      outings: least.outings.map((tracks) =>
        tracks.map((track) => ({
          ...track,
          points: track.points.map((point) => ({ ...point, value: point.value - 0.9 * track.stock })),
        })),
      ),
    };
    const [said] = written(spent);
    expect(said![0]).toMatch(/^least −\d+ % at /);
    expect(said![1]).toBe("breach");
  });

  it("does so too where two are farther apart than they may be", () => {
    const apart = marginRows(plan, schedule, verdict, "least").find((row) => row.kind === "apart")!;
    if (apart.kind !== "apart") throw new Error("no strip of how far apart");
    expect(written(apart).find(([text]) => text.startsWith("most"))![1]).toBe("tight");
    const most = written({ ...apart, limit: 1 }).find(([text]) => text.startsWith("most"));
    expect(most![1]).toBe("breach");
  });
});
