import type { Plan } from "../../plan/index.ts";
import { crewTable, evaTable, suitTable } from "../fields/crew.ts";
import { containerTable, equipmentTable, storesSheet } from "../fields/gear.ts";
import { groupTable } from "../fields/groups.ts";
import { keepOutTable } from "../fields/keepouts.ts";
import { legTable } from "../fields/legs.ts";
import { linkTable } from "../fields/links.ts";
import { oddsSheet } from "../fields/odds.ts";
import { placeTable } from "../fields/places.ts";
import { proceduresSheet } from "../fields/procedures.ts";
import { rulesSheet } from "../fields/rules.ts";
import { bodySheet, groundSheet, siteSheet } from "../fields/site.ts";
import { blockTable, passTable, staySheet } from "../fields/stay.ts";
import { taskTable } from "../fields/tasks.ts";
import type { Table } from "../fields/table.ts";

/** The registry of setup: its pages and the tables on each. */

export interface Page {
  readonly id: string;
  readonly name: string;
  readonly tables: readonly Table[];
  /** What the chooser says beside the name: how many there are. */
  readonly count: (plan: Plan) => number | null;
}

export const PAGES: readonly Page[] = [
  { id: "tasks", name: "Tasks", tables: [taskTable], count: (plan) => plan.tasks.length },
  { id: "links", name: "Links", tables: [linkTable], count: (plan) => plan.links.length },
  { id: "groups", name: "Groups", tables: [groupTable], count: (plan) => plan.groups.length },
  { id: "crew", name: "Crew and suits", tables: [crewTable, suitTable], count: (plan) => plan.crew.length },
  { id: "evas", name: "EVAs", tables: [evaTable], count: (plan) => plan.evas.length },
  {
    id: "site",
    name: "Site and places",
    tables: [siteSheet, placeTable, keepOutTable, legTable, groundSheet, bodySheet],
    count: (plan) => plan.site.places.length,
  },
  {
    id: "gear",
    name: "Gear and stores",
    tables: [equipmentTable, containerTable, storesSheet],
    count: (plan) => plan.equipment.length + plan.containers.length,
  },
  { id: "procedures", name: "Procedures", tables: [proceduresSheet], count: () => null },
  { id: "stay", name: "Stay", tables: [staySheet, blockTable, passTable], count: () => null },
  { id: "rules", name: "Flight rules", tables: [rulesSheet], count: () => null },
  { id: "odds", name: "Odds", tables: [oddsSheet], count: () => null },
];
