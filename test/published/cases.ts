import type { Case } from "./case.ts";
import { gasCases } from "./gas.cases.ts";
import { groundCases } from "./ground.cases.ts";
import { horizonCases } from "./horizon.cases.ts";
import { reliefCases } from "./relief.cases.ts";
import { skyCases } from "./sky.cases.ts";
import { suitCases } from "./suit.cases.ts";
import { wornCases } from "./worn.cases.ts";
import { workCases } from "./work.cases.ts";

/** Every published check, in the order of the validation page. */
export const cases: readonly Case[] = [
  ...workCases,
  ...gasCases,
  ...groundCases,
  ...reliefCases,
  ...skyCases,
  ...horizonCases,
  ...suitCases,
  ...wornCases,
];
