import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { instant } from "../../src/kernel/index.ts";
import { secondsIn } from "../../src/screens/fields/timeentry.ts";
import {
  clock,
  clockToSecond,
  dayBeginsMs,
  gridName,
  hours,
  inside,
  lasting,
  met,
  minutes,
  noLaterThan,
  shift,
  timeLeft,
  utcClock,
  utcDate,
  utcDay,
  utcStamp,
  touchdownMs,
} from "../../src/words/index.ts";

const moments = fc.integer({ min: -400_000, max: 400_000 });
const lengths = fc.integer({ min: 0, max: 400_000 });
const SIDES = ["up", "down"] as const;

describe("the clock", () => {
  it("says a moment one way", () => {
    expect([0, -0, 59, 60, 5999, 18_450, 79_260].map((atS) => clock(atS))).toEqual([
      "0:00",
      "0:00",
      "0:00:59",
      "0:01",
      "1:39:59",
      "5:07:30",
      "22:01",
    ]);
    expect([-1, -60, -61, -1800].map((atS) => clock(atS))).toEqual([
      "−0:00:01",
      "−0:01",
      "−0:01:01",
      "−0:30",
    ]);
    expect(met(18_450)).toBe("5:07:30 MET");
    expect([clock(18_450, "down"), clock(18_450, "up"), met(18_450, "down")]).toEqual([
      "5:07",
      "5:08",
      "5:07 MET",
    ]);
    expect([0, 3930, -60].map(clockToSecond)).toEqual(["0:00:00", "1:05:30", "−0:01:00"]);
  });

  it("reads back as the moment that was said", () => {
    fc.assert(
      fc.property(moments, (atS) => {
        expect(secondsIn(clock(atS))).toBe(atS + 0);
        expect(secondsIn(clockToSecond(atS))).toBe(atS + 0);
      }),
    );
  });

  it("puts a limit on the whole minute at its safe side", () => {
    fc.assert(
      fc.property(moments, fc.constantFrom(...SIDES), (atS, side) => {
        const read = secondsIn(clock(atS, side))!;
        const by = side === "up" ? read - atS : atS - read;
        expect(by).toBeGreaterThanOrEqual(0);
        expect(by).toBeLessThan(60);
        expect(Math.abs(read % 60)).toBe(0);
      }),
    );
  });

  it("has no sixtieth minute or second, and no minus before nothing", () => {
    fc.assert(
      fc.property(moments, fc.constantFrom("up", "down", "given"), (atS, side) => {
        expect(clock(atS, side)).toMatch(/^−?\d+:[0-5]\d(:[0-5]\d)?$/);
        expect(clock(atS, side)).not.toBe("−0:00");
        expect(lasting(atS, side)).toMatch(
          /^−?(\d+:[0-5]\d(:[0-5]\d)?|[1-5]?\d min( [1-5]?\d s)?|[1-5]?\d s)$/,
        );
        expect(lasting(atS, side)).not.toMatch(/^−0 /);
      }),
    );
  });
});

describe("limits", () => {
  it("a last moment is counted down, but not past what is planned", () => {
    const of = (limitS: number, plannedS: number | null): string =>
      clock(noLaterThan(instant(limitS), plannedS === null ? null : instant(plannedS)));
    expect([7199, 7200, 7259, -1].map((limitS) => of(limitS, null))).toEqual([
      "1:59",
      "2:00",
      "2:00",
      "−0:01",
    ]);
    expect(of(7199, 7140)).toBe("1:59");
    expect(of(7199, 7141)).toBe("1:59:59");
    // Planned too late anyway: the limit keeps to the safe side.
    expect(of(7199, 7200)).toBe("1:59");
  });

  it("a window stands on whole minutes inside it, and what it is for never sticks out of it", () => {
    // 2:00:01 to 3:59:59; the task lies inside 2:01 to 3:59.
    const window = { startS: 7201, endS: 14_399 };
    expect(inside(window, { startS: 7260, endS: 14_340 })).toBe("2:01 to 3:59");
    // A second earlier, or a second later, and whole minutes would leave it out.
    expect(inside(window, { startS: 7259, endS: 14_340 })).toBe("2:00:01 to 3:59:59");
    expect(inside(window, { startS: 7260, endS: 14_341 })).toBe("2:00:01 to 3:59:59");
  });
});

describe("lengths of time", () => {
  it("are said in seconds, minutes, and from an hour on as h:mm", () => {
    expect([0, 40, 61, 3541, 3660, 5400].map((seconds) => lasting(seconds, "up"))).toEqual([
      "0 min",
      "40 s",
      "2 min",
      "1:00",
      "1:01",
      "1:30",
    ]);
    expect([59.9, 119, 779, -61].map((seconds) => lasting(seconds, "down"))).toEqual([
      "59 s",
      "1 min",
      "12 min",
      "−2 min",
    ]);
    expect([40, 1500, 1530, 3900, 3930, -90].map((seconds) => lasting(seconds, "given"))).toEqual([
      "40 s",
      "25 min",
      "25 min 30 s",
      "1:05",
      "1:05:30",
      "−1 min 30 s",
    ]);
    expect([-1, 779].map(timeLeft)).toEqual(["no time", "12 min"]);
    expect([minutes(4500, "up"), minutes(4499, "down"), minutes(-1, "down")]).toEqual([
      "75 min",
      "74 min",
      "−1 min",
    ]);
  });

  it("read back: as given the same, needed never less, left never more, by less than a minute", () => {
    fc.assert(
      fc.property(lengths, (seconds) => {
        expect(secondsIn(lasting(seconds, "given"))).toBe(seconds);
        const [up, down] = [secondsIn(lasting(seconds, "up"))!, secondsIn(lasting(seconds, "down"))!];
        expect(up - seconds).toBeGreaterThanOrEqual(0);
        expect(up - seconds).toBeLessThan(60);
        expect(seconds - down).toBeGreaterThanOrEqual(0);
        expect(seconds - down).toBeLessThan(60);
      }),
    );
  });

  it("of two, the longer is never said as the shorter", () => {
    fc.assert(
      fc.property(lengths, lengths, fc.constantFrom(...SIDES), (a, b, side) => {
        const [one, other] = [secondsIn(lasting(a, side))!, secondsIn(lasting(b, side))!];
        expect(Math.sign(one - other) * Math.sign(a - b)).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});

describe("shifts and grids", () => {
  it("are said with their sign, in minutes", () => {
    expect([0, 61, 4500, -61].map((byS) => shift(byS, "up"))).toEqual([
      "0 min",
      "+2 min",
      "+75 min",
      "−1 min",
    ]);
    expect(shift(-200, "given")).toBe("−3 min 20 s");
    expect([hours(79_199, "down"), hours(79_200, "up")]).toEqual(["21 h", "22 h"]);
    expect([60, 300, 30, 90].map(gridName)).toEqual([
      "whole minutes",
      "whole multiples of 5 min",
      "whole multiples of 30 s",
      "whole multiples of 1 min 30 s",
    ]);
  });
});

describe("universal time", () => {
  it("is read from touchdown, whatever the machine's zone", () => {
    const zeroMs = touchdownMs({ stay: { touchdownUtc: "2031-04-05T22:30:00Z" } })!;
    expect(zeroMs).toBe(Date.UTC(2031, 3, 5, 22, 30));
    expect([0, 5400, 5401].map((atS) => utcClock(zeroMs, atS))).toEqual(["22:30", "00:00", "00:00:01"]);
    expect(utcDay(zeroMs, 5400)).toBe("6 Apr");
    expect(utcStamp(zeroMs, 90)).toBe("2031-04-05T22:31:30Z");
  });

  it("has no moment where nobody has said when the lander touches down", () => {
    const stay = { touchdownUtc: "2031-04-05T22:30:00Z", toGive: ["touchdownUtc" as const] };
    expect(touchdownMs({ stay })).toBeNull();
    expect([utcClock(null, 0), utcDay(null, 0), utcDate(null, 0)]).toEqual(["–", "–", "–"]);
    expect(touchdownMs({ stay: { ...stay, toGive: ["lengthS"] } })).toBe(Date.UTC(2031, 3, 5, 22, 30));
  });

  it("is read by the day, of the month or of the year, where the calendar has it", () => {
    expect(dayBeginsMs("2031-04-05")).toBe(Date.UTC(2031, 3, 5));
    expect(dayBeginsMs("2031-095")).toBe(Date.UTC(2031, 3, 5));
    expect(dayBeginsMs("2032-366")).toBe(Date.UTC(2032, 11, 31));
    for (const none of ["2031-02-29", "2031-04-31", "2031-13-01", "2031-366", "2031-000", "soon"])
      expect(dayBeginsMs(none)).toBeNull();
  });

  it("crosses midnight and the year", () => {
    const zeroMs = Date.parse("2031-12-31T23:30:00Z");
    expect(utcClock(zeroMs, 1740)).toBe("23:59");
    expect(utcClock(zeroMs, 1799)).toBe("23:59:59");
    expect(utcDate(zeroMs, 1800)).toBe("1 Jan 2032 00:00");
  });
});
