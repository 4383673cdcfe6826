import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { Ajv } from "ajv";
import addFormats from "ajv-formats";
import { describe, expect, it } from "vitest";
import { billOf, licencesText, partsIn } from "../../.config/release/parts.ts";

const LOCK = readFileSync("package-lock.json", "utf8");
const parts = partsIn(LOCK);

describe("the parts of the build", () => {
  it("are what is needed to run, each with a licence and its text", () => {
    const names = parts.map(({ name }) => name);
    for (const needed of ["react-dom", "zod", "geotiff", "fflate", "scheduler"])
      expect(names).toContain(needed);
    for (const tool of ["vite", "vitest", "eslint", "ajv"]) expect(names).not.toContain(tool);
    const text = licencesText(".", parts);
    for (const { name, version } of parts) expect(text).toContain(`${name} ${version} (`);
    expect(text.split(/^-{78}$/m)).toHaveLength(2 * parts.length + 1);
  });

  it("are under licences that let them be passed on with their notice", () => {
    const known =
      /^(MIT|ISC|Apache-2\.0|OFL-1\.1|CC0-1\.0|BSD-3-Clause|Zlib|MIT AND Zlib|MIT AND BSD-3-Clause)$/;
    // Its folder holds the text of the MIT licence; only its record names none.
    const unnamed = ["png-js"];
    const strange = parts.filter(
      ({ name, licence }) => !known.test(licence ?? "") && !unnamed.includes(name),
    );
    expect(strange.map(({ name, licence }) => `${name}: ${licence}`)).toEqual([]);
  });
});

describe("the bill of materials", () => {
  it("is one by the schema of CycloneDX 1.6, as its own library has it", () => {
    const require = createRequire(import.meta.url);
    const folder = join(dirname(require.resolve("@cyclonedx/cyclonedx-library/package.json")), "res/schema");
    const schema = (name: string): object => JSON.parse(readFileSync(join(folder, name), "utf8")) as object;
    // The schema is of draft 7 with words that only editors read.
    const ajv = new Ajv({ strict: false });
    addFormats.default(ajv);
    for (const form of ["iri-reference", "idn-email"]) ajv.addFormat(form, true);
    for (const name of ["spdx.SNAPSHOT.schema.json", "jsf-0.82.SNAPSHOT.schema.json"])
      ajv.addSchema({ ...schema(name), $id: `http://cyclonedx.org/schema/${name}` });
    const check = ajv.compile(schema("bom-1.6.SNAPSHOT.schema.json"));
    expect(check(JSON.parse(billOf(LOCK))), JSON.stringify(check.errors)).toBe(true);
    expect(check({ bomFormat: "CycloneDX", specVersion: "1.6", components: [{ name: "x" }] })).toBe(false);
  });

  it("names for every part what it needs, down to the last, and nothing twice", () => {
    const bill = JSON.parse(billOf(LOCK)) as {
      components: { "bom-ref": string; hashes?: unknown[] }[];
      dependencies: { ref: string; dependsOn: string[] }[];
    };
    const known = new Set(bill.components.map((one) => one["bom-ref"]));
    const [self, ...others] = bill.dependencies;
    expect(known.size).toBe(parts.length);
    expect(others.map(({ ref }) => ref)).toEqual(bill.components.map((one) => one["bom-ref"]));
    for (const { dependsOn } of bill.dependencies) for (const ref of dependsOn) expect(known).toContain(ref);
    // From the program itself everything is reached.
    const reached = new Set(self?.dependsOn);
    for (const ref of reached) {
      const more = bill.dependencies.find((one) => one.ref === ref)?.dependsOn ?? [];
      for (const one of more) reached.add(one);
    }
    expect([...known].filter((ref) => !reached.has(ref))).toEqual([]);
    expect(bill.components.filter(({ hashes }) => hashes === undefined)).toEqual([]);
    expect(existsSync("node_modules/fflate")).toBe(true);
  });
});
