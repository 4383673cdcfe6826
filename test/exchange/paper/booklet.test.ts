import { cautionsOf, stepsOf } from "../../plan/lines.ts";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { booklets, impose, STANDING } from "../../../src/exchange/index.ts";
import { duration, instant } from "../../../src/kernel/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { clock } from "../../../src/words/index.ts";
import { crowdedPlan, planOf, samplePlan, taskOf } from "../samplePlan.ts";
import { collisions, overflows, sizeOf, textsOf, wordsOf } from "./reading.ts";

const printed = (plan: Plan, options: Parameters<typeof booklets>[2] = {}) =>
  booklets(plan, check(plan, plan.schedule), options);

const pageOf = (plan: Plan, crew: string, name: string) => {
  const found = printed(plan, { crew: [crew] }).pages.find((page) => page.name.endsWith(`: ${name}`));
  if (!found) throw new Error(`no page "${name}"`);
  return found;
};

describe("the suit", () => {
  // The second suit has 40 min of emergency oxygen, the first 30.
  const dressed = (suits: Record<string, string>): Plan => {
    const plan = samplePlan();
    return {
      ...plan,
      suits: plan.suits.map((one) =>
        one.id === "suit-2" ? { ...one, emergencyOxygenS: duration(2400) } : one,
      ),
      evas: plan.evas.map((eva) => (eva.id === "eva-2" ? { ...eva, suits } : eva)),
    };
  };
  const swapped = { ev1: "suit-2", ev2: "suit-1" };
  const saying = (plan: Plan, crew: string): (string | undefined)[] =>
    printed(plan, { crew: [crew] }).pages.flatMap(
      (page) => /(?:In|SUIT) Suit of suit-\d/.exec(wordsOf(page))?.[0] ?? [],
    );

  it("stands on glance list and emergency page of each EVA where it is not plain which, and nowhere else", () => {
    expect(saying(dressed({}), "ev1")).toEqual([]);
    expect(saying(dressed(swapped), "ev1")).toEqual([
      "In Suit of suit-1",
      "SUIT Suit of suit-1",
      "In Suit of suit-2",
      "SUIT Suit of suit-2",
    ]);
  });

  it("gives its emergency oxygen to who wears it on that EVA", () => {
    const others = (plan: Plan) =>
      printed(plan, { crew: ["ev1"] }).pages.flatMap(
        (page) => /EV2 has emergency oxygen (\d+)/.exec(wordsOf(page))?.[1] ?? [],
      );
    expect([others(dressed({})), others(dressed(swapped))]).toEqual([
      ["40", "40"],
      ["40", "30"],
    ]);
  });
});

describe("a task's page", () => {
  // Rim survey starts at 185 min 15 s = 11,115 s. From the pad to the north rim: 360 m straight, 396 m walked,
  // at 0.9 m/s 440 s: 10,675 s = 177 min 55 s. The work limit needs the 10 min before the start as a rest at the rim,
  // so they leave by 167 min 55 s, to the whole minute 2:47. Egress: 20 min before the first task at 85 min, so PET is
  // MET less 65 min: 1:42.
  const page = pageOf(samplePlan(), "ev1", "Rim survey");

  it("shows the leave-by time as start less rest and way, on the whole minute, as large as the start with its seconds", () => {
    const leave = sizeOf(page, "2:47");
    expect(leave).toBeGreaterThanOrEqual(20);
    expect(sizeOf(page, "3:05:15")).toBe(leave);
    expect(wordsOf(page)).toContain("PET 1:42");
    expect(wordsOf(page)).toContain("REST 10 min at North rim, until 3:05:15");
  });

  it("shows times on whole minutes larger", () => {
    // Two minutes from the lander to the pad and back at 1 m/s: start 2:40.
    const large = pageOf(samplePlan(), "ev2", "Point the antenna and switch on");
    expect(sizeOf(large, "2:40")).toBeGreaterThanOrEqual(24);
  });

  it("shows the longest walk-back of the task, begun minutes counted up", () => {
    // Boulder to lander: hypot(300, 480) = 566.04 m, 622.6 m walked, 623 s at 1 m/s: 10 min 23 s; from the rim 528 s.
    const large = sizeOf(page, "11");
    expect(large).toBeGreaterThanOrEqual(20);
    expect(wordsOf(page)).toContain("min at the worst");
    // The other way round it begins where it is longest.
    const plan = samplePlan();
    const turned: Plan = {
      ...plan,
      tasks: plan.tasks.map((task) =>
        task.id === "rim-survey" ? { ...task, place: "boulder", endPlace: "pad" } : task,
      ),
    };
    expect(check(turned).walkbackS["rim-survey"]).toBe(623);
    expect(sizeOf(pageOf(turned, "ev1", "Rim survey"), "11")).toBeGreaterThanOrEqual(22);
  });

  it("says where, with whom, how long, the steps and what is next", () => {
    const words = wordsOf(page);
    expect(words).toContain("North rim to Split boulder");
    expect(words).toMatch(/WITH EV2/);
    expect(words).toContain("30 min, end 3:35:15");
    expect(words).toMatch(/1 Panorama at the start 2 Note every change/);
    expect(words).toMatch(/NEXT Rake sample same place, start 3:38, Split boulder/);
  });

  it("leaves no number of a place alone on a line where a smaller title holds it", () => {
    // Of these some fill the line to its last sign or two at 20 points; all stand on one line at 15.
    for (let letters = 1; letters <= 12; letters += 1) {
      const name = `Dust off and set ${"m".repeat(letters)} 2`;
      const plan = planOf(
        [taskOf("dust", { name })],
        [{ task: "dust", eva: "eva-1", crew: ["ev1"], startS: 6000 }],
      );
      const alone = textsOf(pageOf(plan, "ev1", name)).filter(
        ({ text, sizePt }) => text === "2" && sizePt > 12,
      );
      expect(alone, name).toEqual([]);
    }
  });

  it("takes no page more for what comes next than a closer setting does", () => {
    const name = (from: string): string => `${from} ${"beside the tall boulder past the marker ".repeat(3)}`;
    /** Pages of a task with so many steps, before one with as long a name. */
    const pagesOf = (steps: number): readonly string[] => {
      const two = ["Sample", "Core"].map((from, i) =>
        taskOf(`long-${i}`, {
          name: name(from).slice(0, 118).trim(),
          cautions: cautionsOf("Dust on the visor: keep the scoop below the waist."),
          steps: stepsOf(
            ...Array.from({ length: steps }, () => "Photograph the spot, one frame with the scale rod"),
          ),
        }),
      );
      const plan = planOf(
        two,
        two.map(({ id }, i) => ({ task: id, eva: "eva-1", crew: ["ev1"], startS: 6000 + i * 2400 })),
      );
      const { pages } = printed(plan, { crew: ["ev1"] });
      return pages.filter((page) => page.name.includes(": Sample beside")).map(wordsOf);
    };
    for (let steps = 4; steps <= 11; steps += 1) {
      const pages = pagesOf(steps);
      expect(pages.length, `${steps} steps`).toBeLessThanOrEqual(2);
      for (const page of pages) expect(page, `${steps} steps`).toMatch(/WHERE|Photograph/);
    }
  });

  it("sets cautions first, before any time", () => {
    const words = wordsOf(pageOf(samplePlan(), "ev1", "Fuel the power unit"));
    expect(words.indexOf("CAUTION")).toBeGreaterThan(-1);
    expect(words.indexOf("CAUTION")).toBeLessThan(words.indexOf("LEAVE BY"));
  });

  it("says what to take and what to bring back into which container", () => {
    // 1.64 kg is counted up to 1.7 kg: a load is never shown lighter than it is.
    const words = wordsOf(pageOf(samplePlan(), "ev2", "Double core tube"));
    expect(words).toContain("TAKE Drill, 2 x Core tube");
    expect(words).toContain("RETURN 1.7 kg into Box A");
    expect(wordsOf(pageOf(samplePlan(), "ev1", "Carry the seismic unit to the pad"))).toContain(
      "21.3 kg out",
    );
  });

  it("names the window and the relay pass that bound it", () => {
    expect(wordsOf(pageOf(samplePlan(), "ev2", "Point the antenna and switch on"))).toContain(
      "ONLY 2:20 to 4:00; relay until 4:20",
    );
  });

  it("names no window that the task sticks out of by a second, at either end", () => {
    const plan = samplePlan();
    const name = "Point the antenna and switch on";
    const { startS } = plan.schedule.placements.find((one) => one.task === "antenna")!;
    const endS = startS + plan.tasks.find((one) => one.id === "antenna")!.duration.likelyS;
    const only = (fromS: number, toS: number): string => {
      const windows = [{ startS: instant(fromS), endS: instant(toS) }];
      const tasks = plan.tasks.map((task) => (task.id === "antenna" ? { ...task, windows } : task));
      return wordsOf(pageOf({ ...plan, tasks }, "ev2", name));
    };
    expect(only(startS, endS)).toContain(`ONLY ${clock(startS)} to ${clock(endS)}; relay until 4:20`);
    expect(only(startS, endS - 1)).toContain("ONLY relay until 4:20");
    expect(only(startS + 1, endS)).toContain("ONLY relay until 4:20");
  });

  it("ends an EVA with the way home and the ingress limit", () => {
    // Boulder to lander at 0.9 m/s: 622.6 / 0.9 = 692 s, 12 min; with 25 min of ingress from 3:58 it is 4:34:32.
    expect(wordsOf(pageOf(samplePlan(), "ev1", "Rake sample"))).toMatch(
      /NEXT Home to the lander leave at once, walk home 12 min, ingress complete 4:35, latest 8:05/,
    );
  });

  it("says unknown, and no way home, in words", () => {
    const plan = samplePlan();
    const verdict = check(plan, plan.schedule);
    const { rake, ...others } = verdict.walkbackS;
    expect(rake).toBeGreaterThan(0);
    const words = (walkbackS: typeof verdict.walkbackS, outings = verdict.outings) =>
      booklets(plan, { ...verdict, walkbackS, outings }, { crew: ["ev1"] })
        .pages.filter((one) => one.name.endsWith("Rake sample"))
        .map(wordsOf)
        .join(" ");
    expect(words(others)).toMatch(/WALK-BACK unknown/);
    expect(words({ ...others, rake: null })).toMatch(/WALK-BACK no way home/);
    expect(words(others, [])).toMatch(/LEAVE BY unknown/);
  });

  it("does not pass a way that does not exist for no walk at all", () => {
    // The rim is shut in by a keep-out that nobody may walk through.
    const plan = planOf(
      [taskOf("shut", { place: "rim" })],
      [{ task: "shut", eva: "eva-1", crew: ["ev1"], startS: 6000 }],
    );
    const walled: Plan = {
      ...plan,
      site: {
        ...plan.site,
        keepOuts: [
          {
            id: "wall",
            name: "Wall",
            kind: "walking",
            shape: { type: "disc", eastM: 0, northM: 480, radiusM: 30 },
            exemptTasks: [],
          },
        ],
      },
    };
    const words = wordsOf(pageOf(walled, "ev1", "shut"));
    expect(words).toContain("way unknown");
    expect(words).toContain("no way home");
    expect(words).not.toContain("no walk");
  });
});

describe("the page at a glance", () => {
  const page = pageOf(samplePlan(), "ev1", "at a glance");

  it("comes first and has egress and ingress in MET and UTC", () => {
    expect(printed(samplePlan()).pages[0]?.name).toBe("EV1, EVA 1: at a glance");
    // Touchdown 06:00 UTC; egress at 65 min; ingress complete 4:34:32, and at 4:35 it is still sound.
    const words = wordsOf(page);
    expect(words).toMatch(/EGRESS 1:05 UTC 07:05/);
    expect(words).toMatch(/INGRESS BY 4:35 UTC 10:35/);
    expect(words).toMatch(/NO LATER THAN 8:05/);
  });

  it("lists the tasks in order with start and place", () => {
    expect(wordsOf(page)).toMatch(
      /1:25 07:25 Quick first sample Lander .*3:38 09:38 Rake sample Split boulder 3:58 09:58 Walk home 12 min/,
    );
  });

  it("says when the plan is not fit to be flown", () => {
    const plan = samplePlan();
    const late: Plan = {
      ...plan,
      evas: plan.evas.map((eva) => (eva.id === "eva-1" ? { ...eva, longestS: 3600 as never } : eva)),
    };
    expect(check(late, late.schedule).score.breaches).toBeGreaterThan(0);
    expect(wordsOf(pageOf(late, "ev1", "at a glance"))).toContain("not fit to be flown");
    expect(wordsOf(page)).not.toContain("not fit to be flown");
  });
});

describe("a task that breaks a rule", () => {
  it("says so on its page, before anything else, in the judge's words", () => {
    const plan = samplePlan();
    const tasks = plan.tasks.map((task) =>
      task.id === "antenna" ? { ...task, windows: [{ startS: 0 as never, endS: 60 as never }] } : task,
    );
    const broken: Plan = { ...plan, tasks };
    const finding = check(broken, broken.schedule).findings.find((one) => one.rule === "time-window");
    const words = wordsOf(pageOf(broken, "ev2", "Point the antenna and switch on"));
    expect(finding?.level).toBe("breach");
    expect(words).toContain(`THIS PLAN BREAKS A RULE: ${finding?.sentence}`);
    expect(words.indexOf("BREAKS A RULE")).toBeLessThan(words.indexOf("LEAVE BY"));
  });
});

describe("the emergency page", () => {
  const page = pageOf(samplePlan(), "ev2", "emergency");

  it("gives emergency oxygen counted down and the walk-back from each place of that EVA, farthest first", () => {
    const words = wordsOf(page);
    // EV2's suit: 1830 s = 30.5 min, shown 30 min.
    expect(words).toMatch(/EMERGENCY OXYGEN 30 min 3 min of it kept back/);
    // Rim: 528 m at 1 m/s, 8 min 48 s. Pad: 132 m, 2 min 12 s. The rim is known only as the start of a survey.
    expect(words).toMatch(/Split boulder 11 min North rim 9 min Instrument pad 3 min/);
    expect(words).toContain("Follow the flight rules in charge.");
  });

  it("counts the reserve that is kept back up and what there is down", () => {
    const plan = samplePlan();
    const { walkback } = plan.rules;
    const rules = {
      ...plan.rules,
      walkback: { ...walkback, emergencyReserveS: 181 as typeof walkback.emergencyReserveS },
    };
    // EV2: 1830 s is 30 min and a half. 181 s kept back is more than 3 min.
    expect(wordsOf(pageOf({ ...plan, rules }, "ev2", "emergency"))).toMatch(
      /EMERGENCY OXYGEN 30 min 4 min of it kept back/,
    );
  });

  it("lists only places of its own EVA", () => {
    const second = printed(samplePlan(), { crew: ["ev1"] }).pages.filter((one) =>
      one.name.endsWith("emergency"),
    )[1];
    expect(second && wordsOf(second)).toContain("North rim 9 min");
    expect(second && wordsOf(second)).not.toContain("Instrument pad");
  });
});

describe("every booklet", () => {
  it("says on every page who, which EVA, page n of m, the plan and who decides", () => {
    const { pages } = printed(samplePlan(), { crew: ["ev2"] });
    pages.forEach((page, i) => {
      const words = wordsOf(page);
      expect(words).toContain("EV2");
      expect(words).toMatch(/EVA [12]/);
      expect(words).toContain(`Page ${i + 1} of ${pages.length}`);
      expect(words).toContain("Rehearsal plan, Quarry Flat");
      expect(words).toContain(STANDING);
    });
  });

  it("cuts nothing off: every step of a long list is there once, in order", () => {
    const { pages } = printed(crowdedPlan(), { crew: ["ev1"] });
    const words = pages
      .filter((page) => /: 6: documented/.test(page.name))
      .map(wordsOf)
      .join(" ");
    const steps = [...words.matchAll(/Step (\d+):/g)].map((match) => Number(match[1]));
    expect(steps).toEqual(Array.from({ length: 60 }, (_, i) => i + 1));
    const cautious = pages.filter((page) => /: 4: documented/.test(page.name)).map(wordsOf);
    expect(cautious.join(" ").match(/Loose ground/g)?.length).toBe(12 * 9);
    // Wherever a task goes on, its start stands again.
    for (const page of cautious.slice(1)) expect(page).toContain("start 2:52");
  });

  it("has the crew asked for and no other", () => {
    const crews = (options: Parameters<typeof booklets>[2]) => [
      ...new Set(printed(samplePlan(), options).pages.map((page) => page.part)),
    ];
    expect(crews({})).toEqual(["ev1", "ev2"]);
    expect(crews({ crew: ["ev2"] })).toEqual(["ev2"]);
  });

  it("has a page even where nobody goes out", () => {
    expect(printed(planOf([], [])).pages.map(wordsOf).join(" ")).toContain(
      "EV1 goes on no EVA of this plan.",
    );
    const alone = samplePlan();
    const empty = { ...alone, crew: [], evas: [], schedule: { placements: [] } };
    expect(printed(empty).pages).toHaveLength(1);
  });

  it("keeps every mark inside its page and no text over another, long lists and names included", () => {
    for (const plan of [samplePlan(), crowdedPlan()]) {
      const paper = printed(plan);
      for (const { pages } of [
        paper,
        impose(paper, { sheet: "a4", duplex: true, order: "stack", rings: true }),
        impose(paper, { sheet: "letter", duplex: false, order: "reading", rings: true }),
      ]) {
        expect(overflows(pages)).toEqual([]);
        expect(collisions(pages)).toEqual([]);
      }
    }
  });

  it("keeps every mark inside its page whatever the names say", () => {
    const name = fc.oneof(
      fc.string({ unit: "binary", minLength: 1, maxLength: 120 }),
      fc.string({ unit: "grapheme", minLength: 1, maxLength: 120 }),
      fc.constantFrom("W".repeat(120), "採取".repeat(60), "a ".repeat(60)),
    );
    const plan = samplePlan();
    const verdict = check(plan, plan.schedule);
    fc.assert(
      fc.property(name, name, (one, other) => {
        const renamed: Plan = {
          ...plan,
          title: one,
          crew: plan.crew.map((member) => ({ ...member, name: other })),
          evas: plan.evas.map((eva) => ({ ...eva, name: one })),
          site: {
            ...plan.site,
            places: plan.site.places.map((place) => ({ ...place, name: other })),
          },
          equipment: plan.equipment.map((item) => ({ ...item, name: one })),
          tasks: plan.tasks.map((task) => ({
            ...task,
            name: one,
            cautions: cautionsOf(other, one),
            steps: stepsOf(one, other),
          })),
        };
        const { pages } = booklets(renamed, verdict);
        expect(overflows(pages)).toEqual([]);
        expect(collisions(pages)).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });
});
