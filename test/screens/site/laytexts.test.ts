import { describe, expect, it } from "vitest";
import { fitted, type MapFrame, mapX, mapY } from "../../../src/editor/map/index.ts";
import { cross } from "../../../src/editor/map/plates.ts";
import { layTexts, type MapText } from "../../../src/screens/site/laytexts.ts";
import { placesExtent } from "../../../src/screens/site/shown.ts";
import { readyPlan } from "../../readyplan.ts";

const demo = readyPlan("demo");

/** Names of the demo's places, with hours of a visit below each. */
function namesIn(frame: MapFrame): MapText[] {
  return demo.site.places.map((place) => ({
    key: place.id,
    x: mapX(frame, place.eastM),
    y: mapY(frame, place.northM),
    radiusPx: 6.5,
    rank: place.kind === "lander" ? 5 : 1,
    lines: [place.name, "EV1 1:55–3:09", "EV2 1:58–3:09"].map((text) => ({ text, font: "" })),
    ink: () => "",
    names: true,
  }));
}

const widthOf = (_: string, text: string): number => 6.5 * text.length;

function laidIn(widthPx: number, heightPx: number) {
  const frame = fitted(placesExtent(demo), widthPx, heightPx, 44);
  return { ...layTexts(namesIn(frame), widthOf, frame), texts: namesIn(frame) };
}

describe("words on the map", () => {
  it.each([
    [880, 470],
    [1100, 640],
    [1520, 860],
  ])(
    "name every place of the demo in %i by %i pixels, some on a leader, none on another",
    (width, height) => {
      const { laid, leftOut, texts } = laidIn(width, height);
      expect(leftOut).toBe(0);
      expect(laid.map(({ text }) => text.key).toSorted()).toEqual(texts.map(({ key }) => key).toSorted());
      for (const [k, a] of laid.entries()) {
        const name = demo.site.places.find(({ id }) => id === a.text.key)!.name;
        expect(a.text.lines[0]?.text).toBe(name);
        for (const b of laid.slice(k + 1)) {
          const apart =
            a.left + a.widthPx <= b.left ||
            b.left + b.widthPx <= a.left ||
            a.top + a.heightPx <= b.top ||
            b.top + b.heightPx <= a.top;
          expect(apart, `${a.text.key} on ${b.text.key}`).toBe(true);
          if (a.leader && b.leader) expect(cross(a.leader, b.leader)).toBe(false);
        }
      }
      // The instruments about the lander crowd at any of these sizes.
      expect(laid.some(({ leader }) => leader !== null)).toBe(true);
    },
  );

  it("are counted where they have no room", () => {
    const { laid, leftOut } = laidIn(200, 130);
    expect(leftOut).toBeGreaterThan(0);
    expect(laid.length + leftOut).toBe(demo.site.places.length);
  });

  it("let no leader run through the words of the place that is asked about", () => {
    const frame = fitted(placesExtent(demo), 880, 470, 44);
    let withLeaders = 0;
    for (const { id } of demo.site.places) {
      const texts = namesIn(frame).map((text) => (text.key === id ? { ...text, rank: Infinity } : text));
      const { laid, leftOut } = layTexts(texts, widthOf, frame);
      expect(laid.length + leftOut).toBe(texts.length);
      const asked = laid.find(({ text }) => text.key === id)!;
      for (const { leader } of laid) {
        if (!leader || asked.leader) continue;
        withLeaders += 1;
        const [x1, y1, x2, y2] = leader;
        for (let share = 0; share <= 1; share += 0.01) {
          const x = x1 + share * (x2 - x1) - asked.left;
          const y = y1 + share * (y2 - y1) - asked.top;
          expect(x > 0 && x < asked.widthPx && y > 0 && y < asked.heightPx).toBe(false);
        }
      }
    }
    expect(withLeaders).toBeGreaterThan(20);
  });
});
