/** A door of its own to what puts two plans together: few people merge, so it is fetched when somebody does and is in nobody's first load. */
export { mergePlans, takeTheirs, valueAt } from "./threeway.ts";
export { withOwnNumbers } from "./ownids.ts";
