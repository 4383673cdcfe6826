import { type Plan, shortFingerprint } from "../../../plan/index.ts";
import { counted, differenceWords } from "../../../words/index.ts";
import { RIGHT } from "../cuff.ts";
import { extentOf, line, type Mark, type Page, type Paper } from "../page.ts";
import type { Body, Row } from "./body.ts";

/** What is otherwise between two revisions of a plan, and which of their pages have to be replaced. */

/** A state of a plan and what is printed of it, the same kinds of paper in the same order for both. */
export interface Revision {
  readonly plan: Plan;
  readonly papers: readonly Paper[];
}

export interface PageChange {
  /** Booklet or sheet. */
  readonly part: string;
  /** What the page is. */
  readonly name: string;
  /** Its number in its part, from 1: the new one, or of a page that is gone the old one. */
  readonly place: number;
  /** renumbered: nothing on it is otherwise but its number or how many there are. */
  readonly kind: "replace" | "new" | "gone" | "renumbered";
}

/** Every page that is not as it was, in the order of the new paper; pages that are gone last. */
export function pageChanges(before: Revision, after: Revision): PageChange[] {
  return compared(before, after).changes;
}

/** The new pages whose content is otherwise, with a bar beside what changed. */
export function barredPages(before: Revision, after: Revision): Page[] {
  return compared(before, after).barred;
}

interface Numbered {
  readonly page: Page;
  readonly key: string;
  readonly place: number;
  readonly of: number;
}

function compared(before: Revision, after: Revision): { changes: PageChange[]; barred: Page[] } {
  const [old, now] = [numbered(before), numbered(after)];
  const was = new Map(old.map((one) => [one.key, one]));
  const still = new Set(now.map(({ key }) => key));
  const changes: PageChange[] = [];
  const barred: Page[] = [];
  const note = ({ page, place }: Numbered, kind: PageChange["kind"]): void =>
    void changes.push({ part: page.part, name: plainName(page), place, kind });
  for (const one of now) {
    const other = was.get(one.key);
    const kind = other ? changeOf(other, before, one, after) : "new";
    if (kind === null) continue;
    note(one, kind);
    if (kind !== "renumbered") barred.push(withBars(one, after, other ? contentOf(other, before) : []));
  }
  for (const one of old) if (!still.has(one.key)) note(one, "gone");
  return { changes, barred };
}

/** What becomes of a page that was there before; null where nothing does. */
function changeOf(
  other: Numbered,
  before: Revision,
  one: Numbered,
  after: Revision,
): "replace" | "renumbered" | null {
  if (!sameContent(other, before, one, after)) return "replace";
  return renumbered(other, one) ? "renumbered" : null;
}

/** Pages with their numbers; a page is the same one where booklet, name and, of several of one name, the order are. */
function numbered({ papers }: Revision): Numbered[] {
  return papers.flatMap(({ pages }) => {
    const count = new Map<string, number>();
    const seen = new Map<string, number>();
    for (const { part } of pages) count.set(part, (count.get(part) ?? 0) + 1);
    const next = new Map<string, number>();
    return pages.map((page): Numbered => {
      const name = `${page.part}|${plainName(page)}`;
      const nth = (seen.get(name) ?? 0) + 1;
      const place = (next.get(page.part) ?? 0) + 1;
      seen.set(name, nth);
      next.set(page.part, place);
      return { page, key: `${name}|${nth}`, place, of: count.get(page.part) ?? 0 };
    });
  });
}

/** A page's name without its number, which may be another one only because of pages before it. */
function plainName({ name }: Page): string {
  return name.replace(/, sheet \d+ of \d+$/, "");
}

function renumbered(a: Numbered, b: Numbered): boolean {
  return a.place !== b.place || a.of !== b.of;
}

/** What the crew reads is set no smaller; revision and date at the edges of a page are for the desk. */
const READ_OUT_PT = 10;

/** What stands on a page but for revision, date and page number. */
function contentOf({ page, place, of }: Numbered, { plan }: Revision): Mark[] {
  const state = shortFingerprint(plan);
  const edgeMm = page.heightMm / 10;
  return page.marks.filter((mark) => {
    if (mark.kind !== "text") return true;
    const { text, y } = mark;
    // Where it is set to be read out before the hatch is opened, another fingerprint is another page.
    if ((text.includes(state) && mark.sizePt < READ_OUT_PT) || /\bsheet \d+ of \d+$/.test(text)) return false;
    const atEdge = y < edgeMm || y > page.heightMm - edgeMm;
    return !(atEdge && [`${place}`, `${place} / ${of}`, `Page ${place} of ${of}`].includes(text));
  });
}

/** A mark by all that is seen of it. */
function keyOf(mark: Mark): string {
  return JSON.stringify({ ...mark, tags: undefined });
}

function sameContent(a: Numbered, before: Revision, b: Numbered, after: Revision): boolean {
  const [one, two] = [contentOf(a, before), contentOf(b, after)].map((marks) => marks.map(keyOf).toSorted());
  return JSON.stringify(one) === JSON.stringify(two);
}

/** The same text set as large, wherever on the page: what only moved down is not new. */
function textKey(mark: Mark): string | null {
  return mark.kind === "text" ? `${mark.text}|${mark.sizePt}|${mark.bold}|${mark.x.toFixed(2)}` : null;
}

/** The page with a bar at its right edge beside every text that was not on it before; all down where only something is gone. */
function withBars(one: Numbered, after: Revision, old: readonly Mark[]): Page {
  const { page } = one;
  const left = new Map<string, number>();
  for (const key of old.map(textKey)) if (key !== null) left.set(key, (left.get(key) ?? 0) + 1);
  const news = contentOf(one, after).filter((mark) => {
    const key = textKey(mark);
    if (key === null) return false;
    const more = left.get(key) ?? 0;
    left.set(key, more - 1);
    return more <= 0;
  });
  const spans = news.map((mark) => extentOf(mark)).map(({ top, bottom }) => [top, bottom] as const);
  const shown = spans.length > 0 ? spans : [[page.heightMm * 0.1, page.heightMm * 0.9] as const];
  // Right of all content: a cuff page ends at RIGHT, a sheet a little farther from its edge.
  const x = page.widthMm < 120 ? RIGHT + 1.4 : page.widthMm - 6;
  return {
    ...page,
    marks: [...page.marks, ...joined(shown).map(([top, bottom]) => line(x, top, x, bottom, 1))],
  };
}

/** Stretches that touch or nearly do, as one. */
function joined(spans: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  const out: [number, number][] = [];
  for (const [top, bottom] of spans.toSorted((a, b) => a[0] - b[0])) {
    const last = out.at(-1);
    if (last && top <= last[1] + 1) last[1] = Math.max(last[1], bottom);
    else out.push([top, bottom]);
  }
  return out;
}

const KIND_WORDS: Readonly<Record<PageChange["kind"], string>> = {
  replace: "replace",
  new: "put in",
  gone: "take out",
  renumbered: "may stay, its number is another",
};

/** In which booklet or sheet a page is and what it is there, as its own head says it; of a sheet there is no more to say. */
function placeWords({ part, name }: PageChange): { readonly booklet: string; readonly what: string } {
  const cut = name === part ? -1 : name.indexOf(": ");
  return cut < 0 ? { booklet: name, what: "" } : { booklet: name.slice(0, cut), what: name.slice(cut + 2) };
}

/** What to do with a page, in words. */
export function pageWords(page: PageChange): string {
  const { booklet, what } = placeWords(page);
  return `${booklet}, page ${page.place}${what === "" ? "" : `, ${what}`}: ${KIND_WORDS[page.kind]}`;
}

/** The sheet of changes: what is otherwise, and what to do with which page. */
export function changesBody(before: Revision, after: Revision): Body {
  const words = differenceWords(before.plan, after.plan);
  const pages = pageChanges(before, after);
  const stampOf = ({ plan }: Revision): string =>
    `${plan.revision.name ?? "no revision"} ${shortFingerprint(plan)}`;
  return {
    title: "Changes between two revisions",
    wide: false,
    under: [
      `From ${stampOf(before)} to ${stampOf(after)}: ${counted(words.length, "change")}, ${counted(pages.filter(({ kind }) => kind !== "renumbered").length, "page")} to replace, put in or take out.`,
    ],
    key: [
      "On the pages that follow a bar at the right edge stands beside what is new; a bar all down says that something is gone. Revision, date and page numbers are not counted as changes.",
    ],
    sections: [
      {
        kind: "table",
        title: "What changed",
        none: "Nothing.",
        columns: [
          { head: "ABOUT", grow: 1, bold: true },
          { head: "CHANGE", grow: 3 },
        ],
        rows: words.map(({ about, sentence }): Row => ({
          cells: [{ text: about }, { text: sentence }],
        })),
      },
      {
        kind: "table",
        title: "Pages",
        none: "Every page stays.",
        columns: [
          { head: "BOOKLET OR SHEET", grow: 1 },
          { head: "PAGE", align: "right" },
          { head: "WHAT IT IS", grow: 2.5 },
          { head: "DO", grow: 1, bold: true },
          { head: "DONE", blankMm: 14 },
        ],
        rows: pages.map((page): Row => {
          const { booklet, what } = placeWords(page);
          return { cells: [booklet, `${page.place}`, what, KIND_WORDS[page.kind]].map((text) => ({ text })) };
        }),
      },
    ],
  };
}
