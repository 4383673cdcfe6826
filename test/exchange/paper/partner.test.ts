import { describe, expect, it } from "vitest";
import { check } from "../../../src/check/index.ts";
import { booklets } from "../../../src/exchange/index.ts";
import { planOf, taskOf } from "../samplePlan.ts";
import { wordsOf } from "./reading.ts";

type Task = ReturnType<typeof taskOf>;
interface Doing {
  readonly who: string;
  readonly startS: number;
  readonly task: Task;
}

/** The page of a task of EV1's on the day of some tasks, each done by one. */
function pageOf(task: string, ...day: readonly Doing[]): string {
  const plan = planOf(
    day.map((one) => one.task),
    day.map((one) => ({ task: one.task.id, eva: "eva-1", crew: [one.who], startS: one.startS })),
  );
  const { pages } = booklets(plan, check(plan), { crew: ["ev1"] });
  return wordsOf(pages.find(({ name }) => name.endsWith(`: ${task}`))!);
}

const look: Doing = { who: "ev1", startS: 7500, task: taskOf("look", { place: "lander" }) };

describe("where the others are while a task is done", () => {
  it("is their way and no distance while they carry something along it: only how far apart the two come", () => {
    // From the pad, 120 m off, to the rim, 480 m off, in the 30 min from 6900 on: at 7500 they are 240 m off.
    const carry = taskOf("carry", { place: "pad", endPlace: "rim" });
    const page = pageOf("look", { who: "ev2", startS: 6900, task: carry }, look);
    expect(page).toContain("EV2 1 Instrument pad to North rim, ");
    expect(page).toMatch(/ most apart 480 m /);
    expect(page).not.toContain("480 m, 000°");
  });

  it("names what they do there one after the other, and not what they wait for until the task is over", () => {
    const dig = { who: "ev2", startS: 6900, task: taskOf("dig") };
    const rake = taskOf("rake");
    const close = pageOf("look", dig, { who: "ev2", startS: 8160, task: rake }, look);
    expect(close).toContain("EV2 1, 2 at North rim, 480 m, 000°");
    const far = pageOf("look", { ...dig, startS: 5400 }, { who: "ev2", startS: 10_800, task: rake }, look);
    expect(far).toContain("EV2 at North rim, 480 m, 000°");
  });
});

describe("where somebody is who may leave when they like until a printed minute", () => {
  const at = (startS: number): Doing => ({ who: "ev1", startS, task: taskOf("look", { place: "pad" }) });
  const dig = { who: "ev2", startS: 6900, task: taskOf("dig") };
  const core = { who: "ev2", startS: 10_800, task: taskOf("core", { place: "boulder" }) };

  it("is from when to when they go, and the most apart of both", () => {
    // 330 m at 0.9 m/s take 367 s and the core at 3:00 needs a rest of 10 min before it: the dig is done at 2:15, left is by 2:43.
    const page = pageOf("look", dig, core, at(7500));
    expect(page).toContain("EV2 1 at North rim, 360 m, 000°, until 2:15 to 2:43, then to Split boulder");
    expect(page).toContain("then to Split boulder, most apart 469 m");
  });

  it("is either place and the way between, once they may have gone and need not have", () => {
    const page = pageOf("look", dig, core, at(9000));
    expect(page).toContain(
      "EV2 at North rim or on the way to Split boulder, there by 2:50, most apart 469 m",
    );
  });

  it("says nothing of how far the task may lead that begins when this one is over, or was over when it began", () => {
    const stroll = { ...dig, task: taskOf("stroll", { walkM: 200 }) };
    expect(pageOf("look", { ...dig, startS: 7500 }, { ...stroll, startS: 8700 }, at(7500))).not.toContain(
      "apart",
    );
    expect(pageOf("look", stroll, { ...dig, startS: 8100 }, at(8100))).not.toContain("apart");
    expect(pageOf("look", stroll, { ...dig, startS: 8100 }, at(7500))).toContain("most apart 460 m");
  });
});

describe("pages of the hatch", () => {
  const sit = { who: "ev2", startS: 7500, task: taskOf("sit") };

  it("say of the first task that nobody comes along", () => {
    expect(pageOf("egress", look, sit)).toMatch(/NEXT .* ALONE, start 2:05/);
  });

  it("do not say when the others came home who do the last task here with the crew member", () => {
    const plan = planOf(
      [taskOf("stow", { place: "lander", crew: { count: 2 } })],
      [{ task: "stow", eva: "eva-1", crew: ["ev1", "ev2"], startS: 7500 }],
    );
    const { pages } = booklets(plan, check(plan), { crew: ["ev1"] });
    expect(wordsOf(pages.find(({ name }) => name.endsWith(": home, ingress"))!)).not.toContain("EV2 ");
    expect(pageOf("home, ingress", look, sit)).toMatch(/EV2 home \S+ Who is first waits here/);
  });
});
