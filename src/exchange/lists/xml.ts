import { SaxesParser } from "saxes";

/** Tells `open`, `text` and `close` of every element, names without prefix. Throws where the text is no XML. */
export function walkXml(
  xml: string,
  on: {
    open?(name: string, attributes: Readonly<Record<string, string>>): void;
    text?(text: string): void;
    close?(name: string): void;
  },
): void {
  if (xml === "") return;
  const bare = (name: string): string => name.slice(name.indexOf(":") + 1);
  const parser = new SaxesParser();
  parser.on("error", () => {
    throw new Error("it is damaged: a part of it is no XML");
  });
  parser.on("doctype", () => {
    throw new Error("it defines entities of its own, which no workbook does");
  });
  parser.on("opentag", ({ name, attributes }) => on.open?.(bare(name), attributes));
  parser.on("text", (text) => on.text?.(text));
  parser.on("closetag", ({ name }) => on.close?.(bare(name)));
  parser.write(xml).close();
}
