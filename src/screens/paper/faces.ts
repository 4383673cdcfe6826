import "@fontsource/encode-sans-condensed/600.css";
import "@fontsource/encode-sans-condensed/700.css";
import "@fontsource/encode-sans-semi-condensed/600.css";
import "@fontsource/encode-sans-semi-condensed/700.css";
import condensedExt600 from "@fontsource/encode-sans-condensed/files/encode-sans-condensed-latin-ext-600-normal.woff?url";
import condensedExt700 from "@fontsource/encode-sans-condensed/files/encode-sans-condensed-latin-ext-700-normal.woff?url";
import condensed600 from "@fontsource/encode-sans-condensed/files/encode-sans-condensed-latin-600-normal.woff?url";
import condensed700 from "@fontsource/encode-sans-condensed/files/encode-sans-condensed-latin-700-normal.woff?url";
import semiExt600 from "@fontsource/encode-sans-semi-condensed/files/encode-sans-semi-condensed-latin-ext-600-normal.woff?url";
import semiExt700 from "@fontsource/encode-sans-semi-condensed/files/encode-sans-semi-condensed-latin-ext-700-normal.woff?url";
import semi600 from "@fontsource/encode-sans-semi-condensed/files/encode-sans-semi-condensed-latin-600-normal.woff?url";
import semi700 from "@fontsource/encode-sans-semi-condensed/files/encode-sans-semi-condensed-latin-700-normal.woff?url";

const urls: readonly string[] = [
  condensedExt600,
  condensedExt700,
  condensed600,
  condensed700,
  semiExt600,
  semiExt700,
  semi600,
  semi700,
];

/** The faces of paper, from where the app was loaded; `file` as its package names it. */
export async function facesFromServer(file: string): Promise<Uint8Array> {
  // Built files keep the name of the file that they were, with a mark of what is in them.
  const name = file.slice(file.lastIndexOf("/") + 1).replace(/\.woff$/, "");
  const url = urls.find((one) => new RegExp(`/${name}(-[\\w-]{8})?\\.woff`).test(one));
  if (url === undefined) throw new Error(`there is no face ${file}`);
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`the face ${file} cannot be read: ${answer.status} ${answer.statusText}`);
  return new Uint8Array(await answer.arrayBuffer());
}
