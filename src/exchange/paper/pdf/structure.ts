import type { Mark, Tag } from "../page.ts";

type Doc = PDFKit.PDFDocument;
type Element = PDFKit.PDFStructureElement;

/**
 * The structure of a document: each page a section, in it what the marks are tagged as, in the order in which it first stands there. What
 * carries no meaning is marked as such.
 */
export function structureOf(doc: Doc) {
  const root = doc.struct("Document");
  doc.addStructure(root);
  return {
    /** Draws the marks of a page, each as part of what it is. */
    page(title: string, marks: readonly Mark[], draw: (mark: Mark) => void): void {
      const section = doc.struct("Sect", { title });
      root.add(section);
      const elements = new Map<Tag, Element>();
      for (const mark of marks) {
        const path = pathOf(mark);
        if (path.length === 0) {
          doc.markContent("Artifact", { type: "Layout" });
          draw(mark);
          doc.endMarkedContent();
          continue;
        }
        let within = section;
        for (const tag of path) {
          let own = elements.get(tag);
          if (!own) {
            own = elementOf(doc, tag, marks);
            within.add(own);
            elements.set(tag, own);
            for (const cell of tag.cells ?? []) {
              const element = elementOf(doc, cell, marks);
              own.add(element);
              elements.set(cell, element);
            }
          }
          within = own;
        }
        const content = doc.markStructureContent(path.at(-1)?.role ?? "P");
        draw(mark);
        doc.endMarkedContent();
        within.add(content);
      }
      // From the innermost out: an element that is ended takes no more.
      for (const element of [...elements.values()].reverse()) element.end();
      section.end();
    },
    end(): void {
      root.end();
    },
  };
}

/** What a mark is part of; a text is always a paragraph at least, lines and frames only count in a figure. */
function pathOf(mark: Mark): readonly Tag[] {
  const tags = mark.tags ?? [];
  if (mark.kind === "text")
    return tags.length > 0 && HOLDS_TEXT.has(tags.at(-1)!.role) ? tags : [...tags, { role: "P" }];
  return tags.at(-1)?.role === "Figure" ? tags : [];
}

const HOLDS_TEXT: ReadonlySet<Tag["role"]> = new Set(["H1", "H2", "P", "Lbl", "Figure", "TH", "TD"]);

/** An element; of a cell with the columns that it covers, of a head with what it is the head of (ISO 32000-1, 14.8.5.7, table 349). */
function elementOf(doc: Doc, tag: Tag, marks: readonly Mark[]): Element {
  const element = doc.struct(tag.role, optionsOf(tag, marks));
  const { role, span = 1 } = tag;
  if (role === "TH" || span > 1)
    Reflect.set(dataOf(element), "A", {
      O: "Table",
      ...(role === "TH" ? { Scope: "Column" } : {}),
      ...(span > 1 ? { ColSpan: span } : {}),
    });
  return element;
}

/** A figure says what it says; a piece of several texts says them with blanks between, which are only distance on the page. */
function optionsOf(tag: Tag, marks: readonly Mark[]): { readonly alt?: string; readonly actual?: string } {
  if (tag.role === "Figure") return { alt: tag.says ?? "" };
  if (tag.says !== undefined) return { actual: tag.says };
  if (!HOLDS_TEXT.has(tag.role)) return {};
  const texts = marks.flatMap((mark) =>
    mark.kind === "text" && mark.tags?.includes(tag) ? [mark.text] : [],
  );
  return texts.length > 1 ? { actual: texts.join(" ") } : {};
}

/** What the library writes of an element; its types keep it to themselves. */
function dataOf(element: Element): object {
  const dictionary: unknown = Reflect.get(element, "dictionary");
  const data: unknown = typeof dictionary === "object" && dictionary ? Reflect.get(dictionary, "data") : null;
  if (typeof data !== "object" || data === null) throw new Error("an element of structure without its data");
  return data;
}
