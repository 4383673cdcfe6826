import { z } from "zod";
import { treeOf, Unfit } from "./tree.ts";

/** A patch as it stands in a file. */
export const patchSchema = z
  .array(
    z.strictObject({
      path: z
        .array(
          z
            .string()
            .max(200)
            .regex(/^(?!__proto__$)/, "is no field of a plan"),
        )
        .min(1)
        .max(20)
        .describe(
          "Where: names of fields; #key for an item of a list; >key for what follows that item, > for what is first.",
        ),
      from: z.unknown().optional().describe("What stood there; missing where nothing did."),
      to: z.unknown().optional().describe("What stands there instead; missing where nothing does."),
    }),
  )
  .max(100_000)
  .superRefine((patch, context) => {
    try {
      treeOf(patch);
    } catch (error) {
      if (!(error instanceof Unfit)) throw error;
      context.addIssue({ code: "custom", message: `two changes are about ${error.misfit.path.join(" ")}` });
    }
  })
  .describe("Changed values, each by its path.");
