import { runFamily } from "./projects.ts";
import { readJobShop } from "./psplib.ts";

/** `npm run bench -- jobshop DIR`: job shops of Fisher & Thompson 1963, Lawrence 1984; csv rows: name, lower, upper. */
export function run(args: string[]): Promise<void> {
  return runFamily(
    {
      isInstance: (file) => !file.includes("."),
      read: readJobShop,
      known: ([lower, upper]) => ({ floor: Number(lower), best: Number(upper) }),
    },
    args,
  );
}
