export { isApart } from "./ground.ts";
export { TourSearch } from "./search.ts";
