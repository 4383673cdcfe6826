export { chanceOf } from "./chance.ts";
export { acting, CARRIES_ON } from "./crew.ts";
export { glanceRun } from "./glance.ts";
export { oddsRun } from "./run.ts";
