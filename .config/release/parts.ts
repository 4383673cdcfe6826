import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** What the build is made of besides our own code: every package that the lock file counts as needed to run. */

export interface Part {
  /** Its folder: node_modules/... */
  readonly folder: string;
  readonly name: string;
  readonly version: string;
  /** An SPDX expression; null where the package names none. */
  readonly licence: string | null;
  /** "sha512-" and the digest in base64. */
  readonly integrity: string;
  /** Names of the packages it needs. */
  readonly needs: readonly string[];
}

interface LockEntry {
  readonly version?: string;
  readonly license?: string;
  readonly integrity?: string;
  readonly dev?: boolean;
  readonly optional?: boolean;
  readonly devOptional?: boolean;
  readonly dependencies?: Readonly<Record<string, string>>;
}

interface Lock {
  readonly name: string;
  readonly version: string;
  readonly packages: Readonly<Record<string, LockEntry>>;
}

/** The parts by the text of a package-lock.json of version 3, by folder. */
export function partsIn(lockText: string): readonly Part[] {
  const { packages } = JSON.parse(lockText) as Lock;
  return Object.entries(packages)
    .filter(([folder, entry]) => folder !== "" && !entry.dev && !entry.optional && !entry.devOptional)
    .map(([folder, entry]) => ({
      folder,
      name: folder.slice(folder.lastIndexOf("node_modules/") + "node_modules/".length),
      version: entry.version ?? "0",
      licence: entry.license?.replace(/^\((.*)\)$/, "$1") ?? null,
      integrity: entry.integrity ?? "",
      needs: Object.keys(entry.dependencies ?? {}),
    }));
}

/** The licence of every part in full, one text for all; throws for a part without one. */
export function licencesText(root: string, parts: readonly Part[]): string {
  const head = "Lopeline is under the Apache License 2.0 (see LICENSE). It is built with these parts:\n";
  const rule = "-".repeat(78);
  const texts = parts.map((part) => {
    const name = `${part.name} ${part.version} (${part.licence ?? "licence in the text"})`;
    return `${rule}\n${name}\n${rule}\n\n${licenceOf(root, part).trim()}\n`;
  });
  return [head, ...texts].join("\n");
}

/** The text in the part's own folder, or that of its licence with the name of who wrote it. */
function licenceOf(root: string, { folder, name, licence }: Part): string {
  const path = join(root, folder);
  const own = readdirSync(path).filter((file) => /^(licen[cs]e|copying|notice)/i.test(file));
  if (own.length > 0) return own.map((file) => readFileSync(join(path, file), "utf8")).join("\n\n");
  const about = JSON.parse(readFileSync(join(path, "package.json"), "utf8")) as {
    readonly author?: string | { readonly name?: string };
    readonly contributors?: readonly (string | { readonly name?: string })[];
  };
  const people = [about.author, ...(about.contributors ?? [])].flatMap((one) =>
    typeof one === "string" ? [one] : (one?.name ?? []),
  );
  const standard =
    licence === "Apache-2.0"
      ? readFileSync(join(root, "LICENSE"), "utf8")
      : licence === "MIT"
        ? MIT
        : licence === "ISC"
          ? ISC
          : null;
  if (standard === null)
    throw new Error(`${name} has no licence text, and ${licence ?? "none"} is not known here`);
  return `Copyright (c) ${people.length > 0 ? people.join(", ") : `the authors of ${name}`}\n\n${standard}`;
}

const WARRANTY =
  "THE SOFTWARE IS PROVIDED “AS IS”, WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY, FITNESS FOR A PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES OR OTHER LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM, OUT OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE SOFTWARE.";
const MIT = `Permission is hereby granted, free of charge, to any person obtaining a copy of this software and associated documentation files (the “Software”), to deal in the Software without restriction, including without limitation the rights to use, copy, modify, merge, publish, distribute, sublicense, and/or sell copies of the Software, and to permit persons to whom the Software is furnished to do so, subject to the following conditions:\n\nThe above copyright notice and this permission notice shall be included in all copies or substantial portions of the Software.\n\n${WARRANTY}`;
const ISC =
  "Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby granted, provided that the above copyright notice and this permission notice appear in all copies.\n\nTHE SOFTWARE IS PROVIDED “AS IS” AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS SOFTWARE INCLUDING ALL IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL, DIRECT, INDIRECT, OR CONSEQUENTIAL DAMAGES OR ANY DAMAGES WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER IN AN ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN CONNECTION WITH THE USE OR PERFORMANCE OF THIS SOFTWARE.";

/** The parts as a CycloneDX 1.6 bill of materials. */
export function billOf(lockText: string): string {
  const lock = JSON.parse(lockText) as Lock;
  const parts = partsIn(lockText);
  const self = `pkg:npm/${lock.name}@${lock.version}`;
  // A package is looked for in the folder that needs it, then in those around it.
  const found = (folder: string, name: string): Part | undefined => {
    const path = `${folder === "" ? "" : `${folder}/`}node_modules/${name}`;
    const part = parts.find((one) => one.folder === path);
    if (part || folder === "") return part;
    return found(folder.slice(0, Math.max(0, folder.lastIndexOf("/node_modules/"))), name);
  };
  const needed = (folder: string, names: readonly string[]): string[] =>
    [...new Set(names.flatMap((name) => found(folder, name) ?? []).map(addressOf))].sort();
  const roots = Object.keys(lock.packages[""]?.dependencies ?? {});
  const bill = {
    $schema: "http://cyclonedx.org/schema/bom-1.6.schema.json",
    bomFormat: "CycloneDX",
    specVersion: "1.6",
    version: 1,
    metadata: {
      component: {
        type: "application",
        "bom-ref": self,
        name: lock.name,
        version: lock.version,
        licenses: [{ expression: "Apache-2.0" }],
      },
    },
    components: parts.map((part) => ({
      type: "library",
      "bom-ref": addressOf(part),
      name: part.name,
      version: part.version,
      purl: addressOf(part),
      ...(part.licence === null ? {} : { licenses: [{ expression: part.licence }] }),
      ...(part.integrity.startsWith("sha512-")
        ? {
            hashes: [
              { alg: "SHA-512", content: Buffer.from(part.integrity.slice(7), "base64").toString("hex") },
            ],
          }
        : {}),
    })),
    dependencies: [
      { ref: self, dependsOn: needed("", roots) },
      ...parts.map((part) => ({ ref: addressOf(part), dependsOn: needed(part.folder, part.needs) })),
    ],
  };
  return `${JSON.stringify(bill, null, 2)}\n`;
}

function addressOf({ name, version }: Part): string {
  return `pkg:npm/${name.replace("@", "%40")}@${version}`;
}
