import { runFamily } from "./projects.ts";
import { readSm } from "./psplib.ts";

/** `npm run bench -- rcpsp DIR`: projects of Kolisch & Sprecher 1997; csv rows: file, lower, upper, critical path. */
export function run(args: string[]): Promise<void> {
  return runFamily(
    {
      isInstance: (file) => file.endsWith(".sm"),
      read: readSm,
      known: ([lower, upper]) => ({ floor: Number(lower), best: Number(upper) }),
    },
    args,
  );
}
