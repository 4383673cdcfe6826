// @vitest-environment jsdom
import { act } from "react";
import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import { placed } from "../../../src/session/placing.ts";
import { TaskPanel } from "../../../src/screens/task/panel.tsx";
import { settled } from "../../session/bench.ts";
import { button, click, here, press, setStage, show, write } from "../setup/stage.tsx";

setStage();

const text = () => document.body.textContent ?? "";

describe("the details of a task", () => {
  it("are not there when none is selected", () => {
    show(<TaskPanel />);
    expect(document.querySelector(".task")).toBeNull();
  });

  it("say when, who and where, by every clock", () => {
    const { session } = show(<TaskPanel />, (one) => one.select(["one"]));
    // Placed at 2:00 for 15 min. 99 m (90 m with detour 1.1) at 0.9 m/s is 110 s, a second more by rounding to the
    // safe side; 600 s of egress work come before. So egress is at 6489 s and the start 711 s after it.
    const outing = session.state.getState().verdict.outings.find((one) => one.crew === "ev1")!;
    expect(outing.span.startS).toBe(6489);
    expect(text()).toContain("2:00 to 2:15");
    expect(text()).toContain("0:11:51 to 0:26:51");
    expect(text()).toContain("08:07 to 08:22");
    expect(text()).toContain("EVA 1, EV1");
    // 99 m at the walk-back speed of 1 m/s, rounded up to minutes.
    expect(text()).toContain("Walk-back2 min");
  });

  it("cut long names of who and where, and say them whole on asking", () => {
    const long = "The outing with a name of far more letters than a line of the side has room for";
    const { session } = show(<TaskPanel />, (one) => {
      one.edit("Rename", ({ evas }) => ({ evas: evas.map((eva) => ({ ...eva, name: long })) }));
      one.select(["one"]);
    });
    expect(session.state.getState().plan.evas[0]!.name).toBe(long);
    const who = [...document.querySelectorAll(".task-standing dd")].find((one) =>
      one.textContent!.includes("EV1"),
    )!;
    expect(who.textContent).toBe("The outing with a name of f…, EV1");
    expect(who.getAttribute("title")).toBe(`${long}, EV1`);
  });

  it("follow the task while it is held", () => {
    const { session } = show(<TaskPanel />, (one) => {
      one.place("two", { eva: "eva-1", crew: ["ev1"], startS: instant(9000) });
      one.select(["one"]);
    });
    expect(document.querySelector(".task-findings")).toBeNull();
    act(() => {
      session.begin("Move Task one", ["one"]);
      session.preview((start) =>
        placed(start, "one", { eva: "eva-1", crew: ["ev1"], startS: instant(9000) }),
      );
    });
    expect(text()).toContain("2:30 to 2:45");
    expect(document.querySelector(".task-findings .breach")?.textContent).toBe("Breach");
    act(() => session.cancel());
    expect(document.querySelector(".task-findings")).toBeNull();
  });

  it("pin and unpin part by part", () => {
    const { session } = show(<TaskPanel />, (one) => one.select(["one"]));
    const pin = () => session.state.getState().plan.tasks[0]!.pin;
    click(button("Start"));
    expect(pin()).toEqual({ startS: 7200 });
    expect(button("Start").getAttribute("aria-pressed")).toBe("true");
    click(button("Crew"));
    expect(pin()).toEqual({ startS: 7200, crew: ["ev1"] });
    click(button("Start"));
    expect(pin()).toEqual({ crew: ["ev1"] });
  });

  it("send it to the bench, and say there why it is on it", async () => {
    const { session, engine, clock } = show(<TaskPanel />, (one) => one.select(["one"]));
    click(button("Send to bench"));
    expect(session.state.getState().plan.schedule.placements).toEqual([]);
    expect(text()).toContain("On the bench. Why is not known yet.");
    clock.moveOn(1000);
    const fitsAt = { eva: "eva-1", crew: ["ev2"], startS: instant(9000) };
    await act(async () => {
      await engine.reasons
        .at(-1)!
        .answer([{ task: "one", sentence: "It fits at 2:30.", fitsAt, slides: false }]);
      await settled();
    });
    expect(text()).toContain("It fits at 2:30.");
    click(button("Place at 2:30, EVA 1"));
    expect(session.state.getState().plan.schedule.placements).toEqual([{ task: "one", ...fitsAt }]);
  });

  it("are edited in place, field after field", () => {
    const { session } = show(<TaskPanel />, (one) => one.select(["one"]));
    click(button("Worth of Task one"));
    write("1.5");
    expect(document.querySelector(".cell-fault")?.textContent).toBe("Must be a whole number.");
    write("44");
    press("Tab");
    expect(session.state.getState().plan.tasks[0]!.worth).toBe(44);
    // Tab opens the next field, so that a whole task is filled in without another key.
    expect(here().getAttribute("aria-label")).toBe("Likely of Task one, h:mm");
    write("0:20");
    press("Tab");
    expect(session.state.getState().plan.tasks[0]!.duration.likelyS).toBe(1200);
    click(button("Must-do of Task one"));
    expect(session.state.getState().plan.tasks[0]!.must).toBe(true);
  });

  it("say that a deployment leaves an instrument until that is switched off, and show that it is", () => {
    const { session } = show(<TaskPanel />, (one) => {
      one.edit("Kind", (plan) => ({
        tasks: plan.tasks.map((task) => (task.id === "one" ? { ...task, kind: "deployment" } : task)),
      }));
      one.select(["one"]);
    });
    const said = () => session.state.getState().plan.tasks[0]!.instrument;
    const value = () => button("Instrument of Task one").textContent;
    expect([value(), said()]).toEqual(["yes", undefined]);
    click(button("Instrument of Task one"));
    expect([value(), said()]).toEqual(["switched off", false]);
    click(button("Instrument of Task one"));
    expect([value(), said()]).toEqual(["yes", undefined]);
  });

  it("keep a faulty draft apart from the plan", () => {
    const { session } = show(<TaskPanel />, (one) => one.select(["one"]));
    const { plan } = session.state.getState();
    click(button("Likely of Task one"));
    write("later");
    act(() => here().blur());
    expect(text()).toContain("later");
    expect(text()).toContain("Write 1:30, 90 min or 45 s.");
    expect(session.state.getState().plan).toBe(plan);
  });

  it("are of the next task when that is selected", () => {
    const { session, view } = show(<TaskPanel />, (one) => one.select(["one"]));
    act(() => view.setState({ details: true }));
    act(() => session.select(["two"]));
    expect(document.querySelector(".task h2")?.textContent).toBe("Task two");
    click(button("Close details"));
    expect(view.getState().details).toBe(false);
    act(() => session.select([]));
    expect(document.querySelector(".task")).toBeNull();
  });
});
