export { FORMAT, planSchema, VERSION } from "./plan.ts";
export type { Plan, PlanInput } from "./plan.ts";
export { parse, parseText, LARGEST_TEXT } from "./parse.ts";
export type { Fault } from "./fault.ts";
export type { Body, KeepOut, Leg, Place, Site, Stay } from "./site.ts";
export type { Container, CrewMember, Equipment, Eva, Stores, Suit } from "./crew.ts";
export type { Effort, LagLink, Link, Task } from "./task.ts";
export type { Rules, Standing } from "./rules.ts";
export type { Placement, Schedule, Variant } from "./schedule.ts";
