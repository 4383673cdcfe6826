import { STANDING, setLines } from "../cuff.ts";
import { CUFF } from "../cuff.ts";
import { SHEETS, type SheetSize } from "../impose.ts";
import { line, type Mark, type Page, rect, tagged, text } from "../page.ts";
import { clip, fitSize, linesHeight, MM_PER_PT, RISE, textWidth, wrap } from "../type.ts";
import type { Body, Section, Table } from "./body.ts";
import { cardBlocks, titleBlock } from "./cards.ts";
import { fitTable } from "./fit.ts";
import { paginate, type SheetBlock } from "./pages.ts";
import { partedTable } from "./parted.ts";
import { tableBlocks } from "./table.ts";

/** Paper that sheets are set on: for an office printer, or the cuff's own size. */
type SheetPaper = SheetSize | "cuff";

export interface SheetFormat {
  readonly paper: SheetPaper;
  /** Leaves room to punch: two holes 80 mm apart, 12 mm from the edge (ISO 838, values from memory). */
  readonly punched?: boolean | undefined;
}

/** What every sheet says of the plan that it is of. */
export interface SheetStamp {
  /** Name of the plan. */
  readonly plan: string;
  /** Revision and fingerprint, in words. */
  readonly revision: string;
  /** When it was printed, in words. */
  readonly printed: string;
  /** Why nobody may fly it; null where no rule is broken. */
  readonly notCleared: string | null;
}

/** A sheet's paper and where its content stands, mm. */
interface Area {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly small: boolean;
}

const HOLES = { apartMm: 80, fromEdgeMm: 12, crossMm: 1.5 };
/** Of a sheet without and with holes, and of a page of the cuff's size. */
const MARGIN = { plain: 10, punched: 21, cuff: 5 };

function areaOf({ paper, punched = false }: SheetFormat, wide: boolean): Area {
  if (paper === "cuff") {
    const { widthMm, heightMm } = CUFF;
    const edge = MARGIN.cuff;
    // The side of the rings.
    return {
      widthMm,
      heightMm,
      left: 8,
      right: widthMm - 4,
      top: edge,
      bottom: heightMm - edge,
      small: true,
    };
  }
  const { widthMm: short, heightMm: long } = SHEETS[paper];
  const [widthMm, heightMm] = wide ? [long, short] : [short, long];
  const edge = MARGIN.plain;
  const bound = punched ? MARGIN.punched : edge;
  // A sheet on its side is bound along the top.
  const [left, top] = wide ? [edge, bound] : [bound, edge];
  return { widthMm, heightMm, left, right: widthMm - edge, top, bottom: heightMm - edge, small: false };
}

/** Bodies one after the other as pages; each begins on a sheet of its own, and all are counted together. */
export function sheetsOf(bodies: readonly Body[], stamp: SheetStamp, format: SheetFormat): Page[] {
  const laid = bodies.flatMap((body) => {
    const area = areaOf(format, body.wide);
    const head = headOf(body, stamp, area);
    const foot = footOf(body.key, stamp, area);
    const top = area.top + head.height;
    const room = { top, bottom: area.bottom - foot.height };
    const after = { top, bottom: area.bottom - footOf(keyAgain(body, area, 1), stamp, area).height };
    const blocks = bodyBlocks(body, area, room.bottom - room.top);
    return paginate(blocks, room, after).map((marks, k) => ({ body, area, head, k, marks }));
  });
  return laid.map(({ body, area, head, k, marks }, i): Page => {
    const count = `sheet ${i + 1} of ${laid.length}`;
    const foot = footOf(k === 0 ? body.key : keyAgain(body, area, i + 1 - k), stamp, area);
    return {
      widthMm: area.widthMm,
      heightMm: area.heightMm,
      name: `${body.title}, ${count}`,
      part: body.title,
      marks: [
        ...head.draw(count),
        ...marks,
        ...foot.draw(),
        ...(format.punched === true && !area.small ? [holes(area, body.wide)] : []),
      ],
    };
  });
}

/** On small paper a key would take the room of what it explains: after its first sheet it only says where it stands. */
function keyAgain({ key }: Body, { small }: Area, firstSheet: number): readonly string[] {
  return small && key.length > 0 ? [`Signs and roundings: on sheet ${firstSheet}.`] : key;
}

/** So much of its height a drawing keeps at least where giving some up saves a sheet. */
const DRAWN = 0.65;

function bodyBlocks({ sections }: Body, area: Area, roomMm: number): SheetBlock[] {
  const all = sections.map((section) => blocksOf(section, area, roomMm));
  const [drawing] = sections.flatMap((section, i) => (section.kind === "drawing" ? [{ section, i }] : []));
  if (!drawing) return all.flat();
  const heightOf = (blocks: readonly SheetBlock[]): number =>
    blocks.reduce((sum, { height }) => sum + height, 0);
  const own = heightOf(all[drawing.i] ?? []);
  // A little less, so that sums of heights that differ in their last bit make no sheet for one row.
  const room = roomMm - heightOf(all.flat()) + own - 0.1;
  if (room >= own || room < own * DRAWN) return all.flat();
  return all.flatMap((blocks, i) => (i === drawing.i ? blocksOf(drawing.section, area, room) : blocks));
}

function blocksOf(section: Section, area: Area, roomMm: number): SheetBlock[] {
  const { left, right } = area;
  const wide = right - left;
  if (section.kind === "words") {
    const face = { sizePt: area.small ? 10 : 9, bold: section.bold === true };
    return wrap(section.text, wide, face).map((words, i, all) => ({
      height: linesHeight(1, face.sizePt) + (i === all.length - 1 ? 1.2 : 0),
      draw: (y) => setLines([words], left, y, face),
    }));
  }
  if (section.kind === "drawing") {
    const high = Math.min(roomMm, wide * section.aspect);
    return [
      {
        height: high,
        draw: (y) => tagged(section.draw(left, y, wide, high), { role: "Figure", says: section.says }),
      },
    ];
  }
  const titleOf = ({ title }: Table): SheetBlock[] =>
    title === undefined ? [] : [titleBlock(title, left, wide, area.small ? 10 : 11)];
  const titled = titleOf(section);
  if (section.rows.length === 0)
    return [...titled, ...blocksOf({ kind: "words", text: section.none }, area, roomMm)];
  const fit = fitTable(section, wide);
  if (fit) return [...titled, ...tableBlocks(section, fit, left, roomMm)];
  const parts = partedTable(section, wide);
  if (!parts) return [...titled, ...cardBlocks(section, left, wide)];
  return parts.flatMap(({ part, fit: own }) => [...titleOf(part), ...tableBlocks(part, own, left, roomMm)]);
}

interface Head {
  readonly height: number;
  draw(count: string): Mark[];
}

/** Title, what the sheet is of, and on every one of them which plan, revision, date and sheet. */
function headOf(body: Body, stamp: SheetStamp, area: Area): Head {
  const { left, right, top, small } = area;
  const wide = right - left;
  const face = { sizePt: small ? 9 : 8, bold: false };
  const lead = linesHeight(1, face.sizePt);
  const longest = [stamp.plan, stamp.revision, `${stamp.printed} · sheet 888 of 888`];
  const beside = small
    ? 0
    : Math.min(wide / 2, Math.max(...longest.map((words) => textWidth(words, { ...face, bold: true }))));
  const sizePt = fitSize(body.title, wide - beside - 4, true, [16, 14, 13, 12, 11, 10], 1);
  const titleLines = wrap(body.title, wide - beside - 4, { sizePt, bold: true });
  const titleHigh = linesHeight(titleLines.length, sizePt);
  const under = body.under.flatMap((words) => wrap(words, wide, face));
  const alarm =
    stamp.notCleared === null ? [] : wrap(`NOT CLEARED: ${stamp.notCleared}`, wide, { ...face, bold: true });
  const stampHigh = small ? lead * 3 : 0;
  const ruleAt = Math.max(titleHigh, small ? 0 : 3 * lead) + stampHigh + 0.8;
  const height = ruleAt + 1 + (under.length + alarm.length) * lead + 1.2;
  return {
    height,
    draw: (count) => {
      const room = small ? wide : beside;
      const stampLines = [stamp.plan, stamp.revision, `${stamp.printed} · ${count}`].map((words, i) =>
        clip(words, room, { ...face, bold: i === 0 }),
      );
      return [
        ...tagged(setLines(titleLines, left, top, { sizePt, bold: true }), { role: "H1" }),
        ...(small
          ? setLines(stampLines, left, top + titleHigh, face)
          : stampLines.flatMap((words, i) =>
              text(right, top + lead * i + RISE * face.sizePt * MM_PER_PT, words, {
                ...face,
                bold: i === 0,
                align: "right",
              }),
            )),
        line(left, top + ruleAt, right, top + ruleAt, 0.6),
        ...setLines(alarm, left, top + ruleAt + 1, { ...face, bold: true }),
        ...setLines(under, left, top + ruleAt + 1 + alarm.length * lead, face),
        ...(alarm.length > 0 ? [rect(left - 1.5, top + ruleAt + 1, 0.8, alarm.length * lead, 0, 0)] : []),
      ];
    },
  };
}

/** Signs explained, who decides, and the revision once more for whoever tears the head off. */
function footOf(
  key: readonly string[],
  stamp: SheetStamp,
  { left, right, bottom, small }: Area,
): { height: number; draw(): Mark[] } {
  const face = { sizePt: 7, bold: false };
  const lead = linesHeight(1, face.sizePt);
  const wide = right - left;
  const keyLines = key.flatMap((words) => wrap(words, wide, face));
  const standing = wrap(STANDING, small ? wide : wide * 0.62, { ...face, bold: true });
  const besideStanding = Math.max(...standing.map((words) => textWidth(words, { ...face, bold: true }))) + 4;
  // The key stands clear of a table that fills the sheet.
  const height = (keyLines.length + standing.length) * lead + 3.2;
  return {
    height,
    draw: () => [
      ...setLines(keyLines, left, bottom - height + 1.8, face),
      line(left, bottom - standing.length * lead - 0.9, right, bottom - standing.length * lead - 0.9, 0.2),
      ...setLines(standing, left, bottom - standing.length * lead, { ...face, bold: true }),
      ...(small
        ? []
        : text(
            right,
            bottom - lead + RISE * face.sizePt * MM_PER_PT,
            clip(stamp.revision, wide - besideStanding, face),
            {
              ...face,
              align: "right",
            },
          )),
    ],
  };
}

/** Where the punch goes, as two crosses. */
function holes({ widthMm, heightMm }: Area, wide: boolean): Mark {
  const along = (wide ? widthMm : heightMm) / 2;
  const arm = HOLES.crossMm;
  const at = [along - HOLES.apartMm / 2, along + HOLES.apartMm / 2].map((where) =>
    wide ? [where, HOLES.fromEdgeMm] : [HOLES.fromEdgeMm, where],
  );
  return {
    kind: "lines",
    segments: at.flatMap(([x = 0, y = 0]) => [
      [x - arm, y, x + arm, y] as const,
      [x, y - arm, x, y + arm] as const,
    ]),
    widthMm: 0.15,
    ink: 0,
  };
}
