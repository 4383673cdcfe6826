import { instant } from "../../src/kernel/index.ts";
import type { Schedule } from "../../src/plan/index.ts";

/** Schedules written down to prove that what must be done can be done; found once, held by the judge ever since. */

type Row = readonly [task: string, eva: string | null, crew: string, startS: number];

function scheduleOf(rows: readonly Row[]): Schedule {
  return {
    placements: rows.map(([task, eva, crew, startS]) => ({
      task,
      eva,
      crew: crew === "" ? [] : crew.split(" "),
      startS: instant(startS),
    })),
  };
}

/** All must-do tasks of the demo plan and nothing else. */
export const demoMusts = scheduleOf([
  ["unload-racks", "eva-1", "ev1 ev2", 5880],
  ["quick-sample", "eva-1", "ev1", 7037],
  ["low-sun-panorama", "eva-1", "ev2", 7037],
  ["pebble-cores", "eva-1", "ev1 ev2", 8240],
  ["carry-bank", "eva-1", "ev1 ev2", 15813],
  ["set-node", "eva-1", "ev2", 16910],
  ["carry-instruments", "eva-1", "ev1", 17091],
  ["lower-bank", "eva-1", "ev1 ev2", 17948],
  ["connect-bank", "eva-1", "ev1", 18668],
  ["lay-fibre", "eva-1", "ev2", 18705],
  ["aim-link", "eva-1", "ev2", 20821],
  ["wake-command", null, "", 22200],
  ["near-lip-documented", "eva-2", "ev1 ev2", 65000],
  ["close-cases", "eva-2", "ev1 ev2", 70200],
]);

/** All eight tasks of the small plan. */
export const smallAll = scheduleOf([
  ["first-scoop", "eva-1", "ev1", 6075],
  ["first-look", "eva-1", "ev2", 6075],
  ["scarp-photographs", "eva-1", "ev1", 6855],
  ["stone-samples", "eva-1", "ev2", 6967],
  ["stone-core", "eva-1", "ev1 ev2", 8287],
  ["scarp-soil", "eva-1", "ev2", 10121],
  ["carry-listener", "eva-1", "ev1", 10136],
  ["level-listener", "eva-1", "ev1", 11036],
]);
