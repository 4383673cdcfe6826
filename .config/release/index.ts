import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import type { Plugin, Rolldown } from "vite";
import { billOf, licencesText, partsIn } from "./parts.ts";

/**
 * What a build has besides the program: a policy that lets the page load and run nothing but itself, the list of files that
 * are kept for a start without network, the bill of materials and the licences of all parts.
 */
export function release(): Plugin {
  let root = "";
  let out = "";
  return {
    name: "release",
    apply: "build",
    enforce: "post",
    configResolved(config) {
      root = config.root;
      out = join(config.root, config.build.outDir);
      if (config.build.outDir.startsWith("/")) out = config.build.outDir;
    },
    transformIndexHtml: (_html, { bundle = {} }) => [
      {
        tag: "meta",
        attrs: { "http-equiv": "Content-Security-Policy", content: POLICY },
        injectTo: "head-prepend",
      },
      ...fetchedAhead(bundle).map((file) => ({
        tag: "link",
        attrs: file.endsWith(".css")
          ? { rel: "preload", as: "style", crossorigin: true, href: `./${file}` }
          : { rel: "modulepreload", crossorigin: true, href: `./${file}` },
        injectTo: "head" as const,
      })),
    ],
    generateBundle() {
      const lock = readFileSync(join(root, "package-lock.json"), "utf8");
      this.emitFile({ type: "asset", fileName: "bom.json", source: billOf(lock) });
      this.emitFile({ type: "asset", fileName: "licences.txt", source: licencesText(root, partsIn(lock)) });
    },
    writeBundle() {
      const files = kept(out);
      const version = createHash("sha256");
      for (const file of files) version.update(file).update(readFileSync(join(out, file)));
      const worker = join(out, WORKER);
      // The page is kept under the folder's own address, which is what is asked for.
      const list = files.map((file) => (file === "index.html" ? "./" : file));
      const text = readFileSync(worker, "utf8")
        .replace(/(["'`])__FILES__\1/, JSON.stringify(list))
        .replace(/(["'`])__POLICY__\1/, JSON.stringify(POLICY))
        .replace(/(["'`])__VERSION__\1/, JSON.stringify(version.digest("hex").slice(0, 16)));
      // Two underscores alone may be part of a file's mark.
      if (/__(FILES|POLICY|VERSION)__/.test(text))
        throw new Error("the list of files did not find its place in the offline worker");
      writeFileSync(worker, text);
    },
  };
}

/** The files of the program, which the page's own script asks for behind its first picture: fetched while that is drawn. */
function fetchedAhead(bundle: Rolldown.OutputBundle): readonly string[] {
  const standing = filesOf(bundle, "index");
  return [...filesOf(bundle, "program")].filter((file) => !standing.has(file));
}

/** The scripts and sheets that an entry stands on, its own too. */
function filesOf(bundle: Rolldown.OutputBundle, entry: string): ReadonlySet<string> {
  const files = new Set<string>();
  const add = (file: string): void => {
    const chunk = bundle[file];
    if (chunk?.type !== "chunk" || files.has(file)) return;
    files.add(file);
    for (const sheet of chunk.viteMetadata?.importedCss ?? []) files.add(sheet);
    for (const one of chunk.imports) add(one);
  };
  for (const chunk of Object.values(bundle))
    if (chunk.type === "chunk" && chunk.isEntry && chunk.name === entry) add(chunk.fileName);
  return files;
}

/** The service worker's file. */
export const WORKER = "offline.js";

/**
 * Nothing from elsewhere, no code in the page's own text, none made of text. WebAssembly is for height grids packed with it,
 * and their code comes as data within the program.
 */
export const POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self' data:",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** Everything that the program may ask for, pictures of the manual left out. */
function kept(out: string): string[] {
  const all = readdirSync(out, { recursive: true, encoding: "utf8" });
  return all
    .filter((file) => statSync(join(out, file)).isFile())
    .map((file) => relative(".", file).split(sep).join("/"))
    .filter((file) => file !== WORKER && !file.startsWith("pictures/") && !file.endsWith(".map"))
    .sort();
}
