import { describe, expect, it } from "vitest";
import { instant } from "../../../src/kernel/index.ts";
import { commitWords } from "../../../src/screens/day/speech.ts";
import { planOf, smallInput } from "../../session/bench.ts";

const placedBy = (crew: string[]) =>
  planOf({
    ...smallInput,
    tasks: smallInput.tasks!.map((task) => ({ ...task, crew: { count: crew.length } })),
    schedule: { placements: [{ task: "one", eva: "eva-1", crew, startS: 7200 }] },
  });
const at = { at: "line", lane: "ev1", startS: instant(7200) } as const;

describe("what is said of a task that was set down", () => {
  it("names all who do it, not only the lane it was dropped on", () => {
    expect(commitWords(placedBy(["ev1", "ev2"]), at, "one", null)).toBe("2:00, EV1 and EV2");
    expect(commitWords(placedBy(["ev1"]), at, "one", null)).toBe("2:00, EV1");
  });

  it("says of a duration which end the time is of", () => {
    expect(commitWords(placedBy(["ev1"]), at, "one", "end")).toBe("2:00, where it now ends, EV1");
    expect(commitWords(placedBy(["ev1"]), at, "one", "start")).toBe("2:00, where it now starts, EV1");
  });

  it("names the bench", () => {
    expect(commitWords(placedBy(["ev1"]), { at: "bench" }, "one", null)).toBe("the bench");
  });
});
