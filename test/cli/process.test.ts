import { execFile } from "node:child_process";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";

/** Runs the command as a process of its own, as `npm run lope` does. */
function lope(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  return new Promise((settle) => {
    execFile(process.execPath, ["--import", "tsx", resolve("src/cli/main.ts"), ...args], (error, out, err) =>
      settle({ code: typeof error?.code === "number" ? error.code : 0, out, err }),
    );
  });
}

describe("the command as a process", () => {
  it("hands its exit code to the shell and keeps results and faults on their own streams", async () => {
    const [good, bad] = await Promise.all([
      lope("check", "public/plans/small.json", "--json"),
      lope("check", "public/plans/none.json"),
    ]);
    expect({ code: good.code, err: good.err }).toEqual({ code: 0, err: "" });
    expect(JSON.parse(good.out)).toMatchObject({ breaches: 0, placed: 0 });
    expect(bad).toEqual({
      code: 2,
      out: "",
      err: "lope: public/plans/none.json: there is no such file or folder\n",
    });
  });
});
