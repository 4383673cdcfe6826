import { runFamily } from "./projects.ts";
import { readSch } from "./psplib.ts";

/** `npm run bench -- rcpspmax DIR`: projects of ProGen/max; csv rows: file, then optimum, `low..high` or `unsat`. */
export function run(args: string[]): Promise<void> {
  return runFamily(
    {
      isInstance: (file) => /\.sch$/i.test(file),
      read: readSch,
      known: ([value = ""]) => {
        if (value === "unsat") return null;
        const bounds = value.split("..").map(Number);
        return { floor: bounds[0]!, best: bounds.at(-1)! };
      },
    },
    args,
  );
}
