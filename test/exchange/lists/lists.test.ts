import { describe, expect, it } from "vitest";
import { tasksCsv } from "../../../src/exchange/export/tables.ts";
import { parse } from "../../../src/plan/index.ts";
import { blankPlan } from "../../../src/session/blank.ts";
import { PLACES, placedPlan, readingOf, readInto, REQUESTS } from "./requests.ts";

const requests = () => readInto(placedPlan(), REQUESTS);
const row = (number: string) => requests().rows.find((one) => one.number === number);
const taskIn = (read: ReturnType<typeof requests>, id: string) =>
  read.parts.tasks?.find((task) => task.id === id);

describe("the heads of a list", () => {
  it("are found below titles, with the words of joined heads", () => {
    const { kind, headRow, columns } = readingOf(REQUESTS);
    expect([kind, headRow]).toEqual(["tasks", 3]);
    expect(columns.map(({ head, target }) => `${head}: ${target}`)).toEqual([
      "No.: number",
      "Task: name",
      "What: kind",
      "Where: place",
      "Crew: crew",
      "Time: likely: likely",
      "Time: at least: low",
      "Time: at most: high",
      "Must do: must",
      "Mass: carry out: massOut",
      "Mass: bring back: massBack",
      "Bag/box: container",
      "After: after",
      "Remarks: notes",
    ]);
  });

  it("call by its name a request that nothing else names, and by its number where something does", () => {
    const targets = (text: string) => readingOf(text).columns.map((one) => one.target);
    expect(targets("Request,Where,Minutes\nDig,Lander,25")).toEqual(["name", "place", "likely"]);
    expect(targets("Request,Task,Where\nQ1,Dig,Lander")).toEqual(["number", "name", "place"]);
    expect(targets("Request,Activity,Where\nQ1,Dig,Lander")).toEqual(["number", "name", "place"]);
    expect(targets("Request no,Request,Where\nQ1,Dig,Lander")).toEqual(["number", "name", "place"]);
    const read = readInto(placedPlan(), "Request,Where,Hours\nDig,Lander,1.5");
    expect(read.parts.tasks?.[0]).toMatchObject({ name: "Dig", duration: { likelyS: 5400 } });
  });

  it("name the unit of bare numbers", () => {
    expect(readingOf("Task,Duration (h)\nDig,2").columns[1]).toMatchObject({ target: "likely", unit: "h" });
    const read = readInto(placedPlan(), "Task,Where,Duration (h)\nDig,Lander,1.5");
    expect(read.parts.tasks?.[0]?.duration.likelyS).toBe(5400);
  });

  it("take no column whose unit is none that it is read in", () => {
    const target = (head: string) => readingOf(`Task,Where,${head}\nDig,Lander,2`).columns[2]?.target;
    for (const head of [
      "Mass out (lb)",
      "Mass out [oz]",
      "Mass out (pounds)",
      "Mass out (min)",
      "Duration (days)",
      "Duration (kg)",
    ])
      expect([head, target(head)]).toEqual([head, null]);
    for (const head of ["Mass out (g)", "Mass out (planned)", "Duration (hours)", "Duration (estimate)"])
      expect([head, target(head)]).not.toEqual([head, null]);
    expect(readingOf("Place,East (ft),North (m)\nTor,5,6").columns.map((one) => one.target)).toEqual([
      "name",
      null,
      "north",
    ]);
    const read = readInto(placedPlan(), "Task,Where,Duration,Mass out (lb)\nDig,Lander,20,5");
    expect(read.parts.tasks?.[0]?.massOutKg).toBe(0);
    expect(read.unread).toEqual([{ head: "Mass out (lb)", cells: 1 }]);
  });

  it("tell places and links from tasks", () => {
    expect(readingOf(PLACES).kind).toBe("places");
    expect(readingOf("First task\tSecond task\tAt least\nA\tB\t4:00").kind).toBe("links");
  });
});

describe("two numbers in one cell", () => {
  const list = (...lengths: readonly string[]) =>
    readInto(placedPlan(), ["Task,Where,Duration (min),Carry out (kg)", ...lengths].join("\n"));

  it("are no number of their own, unless they are one in groups of three", () => {
    const read = list(
      "A,Lander,10 15,",
      "B,Lander,5'30,",
      "C,Lander,1 5 min,",
      "D,Lander,1 h 30 min,1 2",
      "E,Lander,2 700 s,",
    );
    expect(
      read.parts.tasks?.map(({ name, duration, massOutKg }) => [name, duration.likelyS, massOutKg]),
    ).toEqual([
      ["D", 5400, 0],
      ["E", 2700, 0],
    ]);
    expect(read.rows.map(({ state }) => state)).toEqual(["left out", "left out", "left out", "new", "new"]);
    expect(read.rows[3]?.lost.join()).toContain("1 2");
  });

  it("put no place anywhere", () => {
    const read = readInto(blankPlan(0), "Place,East (m),North (m)\nFold,1 2,30\nTor,1 200,30\n");
    expect(read.parts.site?.places.map(({ name, eastM }) => [name, eastM])).toEqual([
      ["Lander", 0],
      ["Tor", 1200],
    ]);
  });
});

describe("places", () => {
  it("come in with their units, the lander stays where it is", () => {
    const read = readInto(blankPlan(0), PLACES);
    expect(
      read.parts.site?.places.map(({ name, kind, eastM, northM }) => [name, kind, eastM, northM]),
    ).toEqual([
      ["Lander", "lander", 0, 0],
      ["Low Bench", "station", 120, 45],
      ["Far Ledge", "station", 430, -180],
    ]);
    expect(read.unread).toEqual([{ head: "Note", cells: 1 }]);
    expect(read.questions.map(({ word }) => word)).toEqual(["site"]);
  });

  it("say of one that is there what is otherwise, and nothing else", () => {
    const plan = { ...blankPlan(0), ...readInto(blankPlan(0), PLACES).parts };
    const read = readInto(
      plan,
      "Place,East,North,Kind\nBase,0,0,lander\nLow Bench,121,45,station\nFar Ledge,430,-180,station",
    );
    expect(read.rows.map(({ state, says }) => [state, says])).toEqual([
      ["changed", ["name Base, was Lander"]],
      ["changed", ["east 121 m, was 120 m"]],
      ["same", []],
    ]);
  });

  it("leave out a lander that is not where east and north are counted from", () => {
    const read = readInto(blankPlan(0), "Place,East,North,Kind\nLander,5,0,lander\nRidge,3,4,station");
    expect(read.rows.map(({ name, state }) => `${name}: ${state}`)).toEqual([
      "Lander: left out",
      "Ridge: new",
    ]);
  });
});

describe("requests", () => {
  it("become tasks with durations, masses, crew and places", () => {
    const read = requests();
    expect(taskIn(read, "q1")).toMatchObject({
      name: "First scoop",
      kind: "sampling",
      place: "lander",
      crew: { count: 1, named: ["ev1"] },
      duration: { likelyS: 480, lowS: 300, highS: 900 },
      must: true,
      sample: { container: "small-bag", massKg: 0.5 },
      notes: "before all else",
    });
    expect(taskIn(read, "q2")).toMatchObject({
      kind: "deployment",
      place: "low-bench",
      crew: { count: 2, named: [] },
      massOutKg: 14,
      effort: "deployment",
    });
    expect(taskIn(read, "q3")?.duration.likelyS).toBe(25 * 60);
    // 2200 g
    expect(taskIn(read, "q5")).toMatchObject({ place: "low-bench", endPlace: "far-ledge", massOutKg: 2.2 });
    expect(parse({ ...placedPlan(), ...read.parts }).ok).toBe(true);
  });

  it("are joined by links where one comes after another", () => {
    const pairs = requests().parts.links?.map(
      (link) => link.type === "lag" && [link.from.task, link.to.task],
    );
    expect(pairs).toEqual([
      ["q1", "q2"],
      ["q1", "q3"],
      ["q2", "q3"],
    ]);
  });

  it("ask about each word once, with what it seems to mean", () => {
    expect(
      requests().questions.map(({ column, word, cells, guess }) => [column, word, cells, guess]),
    ).toEqual([
      ["Kind", "sample", 2, "sampling"],
      ["Kind", "instrument", 2, "deployment"],
      ["Place", "", 1, null],
      ["Crew", "both", 2, "2"],
      ["Crew", "any", 1, "1"],
      ["Crew", "one", 2, "1"],
      ["Container", "Small bag", 1, "new"],
      ["Container", "Rock case", 1, "new"],
    ]);
  });

  it("take what is good and say of the rest what is lost and why", () => {
    expect(row("Q4")).toMatchObject({
      state: "left out",
      says: ["it has no place, and a task with crew needs one"],
    });
    expect(row("Q5")?.lost).toEqual(["After “Q9”, which is nowhere"]);
    expect(row("Q6")?.lost).toEqual(["0.9 kg brought back, in no container"]);
    const twice = requests().rows.filter(({ number }) => number === "Q2");
    expect(twice.map(({ state }) => state)).toEqual(["new", "left out"]);
  });

  it("take 0 kg brought back for nothing, which a blank is not, and write it so that it is read again", () => {
    const read = readInto(
      placedPlan(),
      "Number,Task,Kind,Where,Duration,Brought back (kg)\nN1,Dig,sampling,Lander,0:25,0\nN2,Look,sampling,Lander,0:25,",
    );
    const made = (number: string) => read.parts.tasks?.find((task) => task.number === number);
    expect(made("N1")).toMatchObject({ bringsNothing: true });
    expect(made("N2")).not.toHaveProperty("bringsNothing");
    const plan = { ...placedPlan(), tasks: read.parts.tasks! };
    const again = readInto({ ...plan, tasks: [] }, tasksCsv(plan, 0));
    const back = again.parts.tasks!.filter(({ number }) => number === "N1" || number === "N2");
    expect(back.map(({ bringsNothing, sample }) => [bringsNothing, sample])).toEqual([
      [true, undefined],
      [undefined, undefined],
    ]);
  });

  it("take an answer for a word, a blank cell too", () => {
    const answers = new Map([
      ["Place|", "far-ledge"],
      ["Container|rock case", "leave"],
    ]);
    const read = readInto(placedPlan(), REQUESTS, { answers });
    expect(taskIn(read, "q4")).toMatchObject({ place: "far-ledge" });
    const lost = read.rows.find(({ number }) => number === "Q4")?.lost;
    expect(lost).toEqual(["Container “Rock case”", "1.5 kg brought back, in no container"]);
  });

  it("say of a new container that what it weighs is not known", () => {
    const [note] = requests().notes;
    // Q4 is left out, and with it what it would have brought.
    expect(note).toContain("Small bag (0.5 kg)");
    expect(note).toContain("to be given in setup");
    const bag = requests().parts.containers?.find(({ name }) => name === "Small bag");
    expect(bag?.toGive).toEqual(["emptyMassKg", "capacityKg", "volumeL"]);
  });

  it("leave out a row that the plan cannot take, with the plan's reason", () => {
    const read = readInto(
      placedPlan(),
      "Task,Where,Duration,Carry out\nDig,Lander,10,900 kg\nLook,Lander,5,",
    );
    expect(read.rows.map(({ name, state }) => `${name}: ${state}`)).toEqual(["Dig: left out", "Look: new"]);
    expect(read.rows[0]?.says[0]).toMatch(/500/);
    expect(read.parts.tasks?.map(({ name }) => name)).toEqual(["Look"]);
  });

  it("lose a length of time that no plan holds", () => {
    const read = readInto(placedPlan(), "Task,Where,Duration,At most\nDig,Lander,10,540431955284459520 min");
    expect(read.rows[0]).toMatchObject({ state: "new", lost: ["At most “540431955284459520 min”"] });
  });

  it("read numbers by the decimal mark of the list, and count those that hang on it", () => {
    const text = "Task;Where;Duration;Carry out\nDig;Lander;10;1,5 kg\nLook;Lander;5;1,250";
    expect(readingOf(text).mark).toBe(",");
    const read = readInto(placedPlan(), text);
    expect(read.parts.tasks?.map(({ massOutKg }) => massOutKg)).toEqual([1.5, 1.25]);
    expect(read.eitherMark).toBe(1);
    // With a point for decimals 1,250 is a thousand and more, which nobody carries.
    expect(readInto(placedPlan(), text, { mark: "." }).rows[1]?.state).toBe("left out");
  });
});

describe("a length of two numbers", () => {
  const list = (length: string) => `Task,Where,Duration (min)\nDig,Lander,${length}\nLook,Lander,1:30`;
  const lengths = (text: string, part = {}) =>
    readInto(placedPlan(), text, part).parts.tasks?.map((task) => task.duration.likelyS);

  it("is hours and minutes, minutes and seconds where a task would last longer than any does, and either when told so", () => {
    expect(readingOf(list("0:25")).clocks).toBe("h:mm");
    expect(lengths(list("0:25"))).toEqual([1500, 5400]);
    expect(readingOf(list("9:59")).clocks).toBe("h:mm");
    expect(readingOf(list("10:00")).clocks).toBe("m:ss");
    expect(readingOf(list("25:00")).clocks).toBe("m:ss");
    expect(lengths(list("25:00"))).toEqual([1500, 90]);
    expect(lengths(list("25:00"), { clocks: "h:mm" })).toEqual([90_000, 5400]);
  });

  it("is said and counted, one of three numbers and one with its unit are not", () => {
    expect(readInto(placedPlan(), list("25:00")).eitherClock).toEqual({ text: "25:00", cells: 2 });
    expect(readInto(placedPlan(), list("0:25:00")).eitherClock).toEqual({ text: "1:30", cells: 1 });
    expect(readInto(placedPlan(), "Task,Where,Duration\nDig,Lander,25 min").eitherClock).toBeNull();
    expect(lengths(list("0:25:00"), { clocks: "m:ss" })).toEqual([1500, 90]);
  });
});

describe("a second issue of a list", () => {
  const first = () => {
    const plan = placedPlan();
    return { ...plan, ...readInto(plan, REQUESTS).parts };
  };

  it("changes nothing where it says the same", () => {
    const states = readInto(first(), REQUESTS).rows.map(({ state }) => state);
    expect(states.filter((state) => state === "new" || state === "changed")).toEqual([]);
    expect(readInto(first(), REQUESTS).parts).toEqual({});
  });

  it("knows a request by its number, whatever its name is now, and by its name where it had no number", () => {
    const plan = first();
    expect(plan.tasks.map(({ number }) => number)).toEqual(["Q1", "Q2", "Q3", "Q5", "Q6"]);
    const tasks = plan.tasks.map((task) => {
      const bare = { ...task, id: `own-${task.id}` };
      delete bare.number;
      return bare;
    });
    const read = readInto({ ...plan, tasks, links: [] }, REQUESTS);
    expect(read.rows.find(({ number }) => number === "Q5")?.says).toEqual(["number Q5, was none"]);
    expect(readInto(plan, "No.,Task,Where,Duration\nQ12345678,Dig,Lander,5").rows[0]?.lost).toHaveLength(1);
  });

  it("updates by the requester's number and shows the difference", () => {
    const second = REQUESTS.replace("Q2,Set mast,", "Q2,Set tall mast,")
      .replace("Q3,Call home,upkeep,Low Bench,EV2,25 min", "Q3,Call home,upkeep,Low Bench,EV2,30 min")
      .replace("Q1;Q2", "Q2");
    const read = readInto(first(), second);
    const says = (number: string) => read.rows.find((one) => one.number === number)?.says;
    expect(says("Q2")).toEqual(["name Set tall mast, was Set mast"]);
    expect(says("Q3")).toEqual(["likely 30 min, was 25 min", "no longer after First scoop"]);
    expect(read.parts.tasks).toHaveLength(first().tasks.length);
  });

  it("leaves what the planner added, and names what is not in it any more", () => {
    const plan = first();
    const own = {
      ...plan,
      tasks: plan.tasks.map((task) => (task.id === "q1" ? { ...task, worth: 77 } : task)),
    };
    const second = REQUESTS.split("\n").filter((line) => !line.startsWith("Q6"));
    const read = readInto(own, second.join("\n").replace("before all else", "first of all"));
    expect(taskIn(read, "q1")).toMatchObject({ worth: 77, notes: "first of all" });
    expect(read.notes.join(" ")).toContain("not in this list, so left as they are: Swap camera");
  });
});

describe("links", () => {
  it("bound the time between two tasks, and sharpen what stands", () => {
    const plan = placedPlan();
    const now = { ...plan, ...readInto(plan, REQUESTS).parts };
    const read = readInto(
      now,
      "First task\tSecond task\tAt least\nFirst scoop\tSet mast\t4:00\nSet mast\tNothing\t",
    );
    expect(read.rows.map(({ state }) => state)).toEqual(["changed", "left out"]);
    const link = read.parts.links?.find((one) => one.type === "lag" && one.to.task === "q2");
    expect(link).toMatchObject({ leastS: 4 * 3600 });
    // What another list has sharpened is not taken back by the list of tasks.
    const again = readInto({ ...now, ...read.parts }, REQUESTS.replace("14 kg,,,Q1,", "14 kg,,,,"));
    expect(again.rows.find(({ number }) => number === "Q2")?.state).toBe("same");
  });
});
