import { execFile } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
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

  // A device of Linux on which nothing can be written.
  it.skipIf(!existsSync("/dev/full"))(
    "ends with 2 where its answer is lost, never with a verdict",
    async () => {
      const lost = await new Promise<{ code: unknown; err: string }>((settle) => {
        const line = `"${process.execPath}" --import tsx "${resolve("src/cli/main.ts")}" check public/plans/small.json > /dev/full`;
        execFile("/bin/sh", ["-c", line], (error, _, err) => settle({ code: error?.code, err }));
      });
      expect(lost).toEqual({ code: 2, err: "lope: the answer cannot be written: no space is left\n" });
    },
  );

  it("packs by several threads, each from a seed of its own, and gives the best of their days", async () => {
    const folder = mkdtempSync(join(tmpdir(), "lopeline-"));
    try {
      const packed = async (...more: string[]): Promise<{ text: string; worth: number }> => {
        const out = join(folder, "out.json");
        const made = await lope(
          "pack",
          "public/plans/demo.json",
          "--iterations",
          "40",
          "--out",
          out,
          ...more,
        );
        expect(made).toMatchObject({ code: 0, err: "" });
        return { text: readFileSync(out, "utf8"), worth: Number(/packed +worth (\d+)/.exec(made.out)![1]) };
      };
      const together = await packed("--seed", "1", "--workers", "2");
      // A team's seeds lie 7919 apart.
      const apart = [await packed("--seed", "1"), await packed("--seed", "7920")];
      expect(apart[0]!.text).not.toBe(apart[1]!.text);
      expect(apart).toContainEqual(together);
      expect(together.worth).toBe(Math.max(...apart.map(({ worth }) => worth)));
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
