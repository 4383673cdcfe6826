import { isRecord } from "../../kernel/index.ts";

/** A day as a document has it, for a first picture: nothing of it was worked out or checked. */
export interface Sketch {
  readonly title: string;
  readonly evas: readonly { readonly name: string; readonly lanes: readonly Lane[] }[];
  /** Names of the tasks that are not on the day line. */
  readonly bench: readonly string[];
}

interface Lane {
  readonly crew: string;
  /** From and to as shares of the lane, 0 to 1. */
  readonly blocks: readonly { readonly name: string; readonly from: number; readonly to: number }[];
}

/**
 * What can be drawn of a document that nobody has read yet: names, and where tasks stand at their likely durations. null where it
 * is no document of a day; what is not as it should be is left out, since faults are told by whoever reads it in earnest.
 */
export function sketchOf(document: unknown): Sketch | null {
  if (!isRecord(document) || typeof document["title"] !== "string") return null;
  const tasks = new Map(records(document["tasks"]).map((task) => [text(task["id"]), task]));
  const crew = new Map(records(document["crew"]).map((one) => [text(one["id"]), text(one["name"])]));
  const schedule = document["schedule"];
  const placements = isRecord(schedule) ? records(schedule["placements"]) : [];
  const onLine = new Set(placements.map((one) => text(one["task"])));
  const evas = records(document["evas"]).map((eva) => {
    const placed = placements
      .filter((one) => one["eva"] === eva["id"])
      .map((one) => {
        const task = tasks.get(text(one["task"]));
        const duration = task?.["duration"];
        const fromS = number(one["startS"]);
        const lengthS = isRecord(duration) ? number(duration["likelyS"]) : 0;
        const name = text(task?.["name"]) || text(one["task"]);
        return { name, crew: names(one["crew"]), fromS, toS: fromS + Math.max(0, lengthS) };
      });
    const fromS = Math.min(number(eva["earliestEgressS"]), ...placed.map((one) => one.fromS));
    const toS = Math.max(fromS + number(eva["longestS"]), ...placed.map((one) => one.toS));
    const share = (atS: number): number => (atS - fromS) / Math.max(1, toS - fromS);
    const lanes = names(eva["crew"]).map((member) => ({
      crew: crew.get(member) ?? member,
      blocks: placed
        .filter((one) => one.crew.includes(member))
        .map((one) => ({ name: one.name, from: share(one.fromS), to: share(one.toS) })),
    }));
    return { name: text(eva["name"]), lanes };
  });
  const bench = [...tasks].filter(([id]) => !onLine.has(id)).map(([, task]) => text(task["name"]));
  return { title: document["title"], evas, bench };
}

function records(found: unknown): readonly Record<string, unknown>[] {
  return Array.isArray(found) ? found.filter(isRecord) : [];
}

function names(found: unknown): readonly string[] {
  return Array.isArray(found) ? found.map(text) : [];
}

function text(found: unknown): string {
  return typeof found === "string" ? found : "";
}

function number(found: unknown): number {
  return typeof found === "number" ? found : 0;
}
