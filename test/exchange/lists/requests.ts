import { strToU8, zipSync } from "fflate";
import { blankPlan } from "../../../src/session/blank.ts";
import {
  firstReading,
  type ListRead,
  readList,
  type Reading,
  sheetsIn,
} from "../../../src/exchange/lists/index.ts";
import type { Plan } from "../../../src/plan/index.ts";

/** A small invented list with the troubles of real ones: titles, joined heads, mixed units, words of its own. */
export const REQUESTS = [
  '"WISHES, ""Cinder Shelf""",,,,,,,,,,,',
  "Draft 1,,,,,,,,,,,",
  ",,,,,Time,,,,Mass,,,,",
  "No.,Task,What,Where,Crew,likely,at least,at most,Must do,carry out,bring back,Bag/box,After,Remarks",
  "Q1,First scoop,sample,Lander,EV1,0:08,0:05,0:15,x,,0.5 kg,Small bag,,before all else",
  "Q2,Set mast,instrument,Low Bench,both,0:35,0:25,0:50,x,14 kg,,,Q1,",
  "Q3,Call home,upkeep,Low Bench,EV2,25 min,0:15,0:40,x,,,,Q1;Q2,",
  'Q4,Float rocks,sample,,any,0:20,,,,,"1,5 kg",Rock case,,anywhere',
  "Q5,Magnet walk,survey,Low Bench to Far Ledge,one,0:30,0:25,0:45,,2200 g,,,Q9,",
  "Q6,Swap camera,upkeep,Lander,one,0:20,0:15,0:30,,,0.9 kg,,,",
  "Q2,Set mast again,instrument,Low Bench,both,0:35,,,,,,,,",
  ",,,,,,,,,,,,,",
].join("\n");

export const PLACES = [
  "Place,East (m),North (m),Kind,Note",
  "Lander,0,0,lander,",
  "Low Bench,120 m,45 m,site,flat",
  "Far Ledge,0.43 km,-180,station,",
].join("\n");

export const bytesOf = (text: string): Uint8Array => strToU8(text);

export function sheetOf(text: string, name = "list.csv") {
  const read = sheetsIn(name, bytesOf(text));
  if (!read.ok) throw new Error(read.error);
  const [sheet] = read.value;
  if (!sheet) throw new Error("no sheet");
  return sheet;
}

export function readingOf(text: string): Reading {
  const reading = firstReading(sheetOf(text));
  if (!reading) throw new Error("no heads");
  return reading;
}

/** What a list makes of a plan, read as it is read at first but for `part`. */
export function readInto(plan: Plan, text: string, part: Partial<Reading> = {}): ListRead {
  return readList(plan, sheetOf(text), { ...readingOf(text), ...part });
}

/** An empty plan with the places of the list. */
export function placedPlan(): Plan {
  const plan = blankPlan(Date.UTC(2031, 3, 5));
  return { ...plan, ...readInto(plan, PLACES).parts };
}

/** A workbook with one sheet of the given XML; `more` are further parts by name. */
export function workbook(sheetXml: string, more: Readonly<Record<string, string>> = {}): Uint8Array {
  const parts: Record<string, string> = {
    "xl/workbook.xml":
      '<workbook xmlns:r="r"><sheets><sheet name="Wishes" sheetId="1" r:id="rId1"/></sheets></workbook>',
    "xl/_rels/workbook.xml.rels":
      '<Relationships><Relationship Id="rId1" Target="worksheets/sheet1.xml"/></Relationships>',
    "xl/worksheets/sheet1.xml": sheetXml,
    ...more,
  };
  return zipSync(Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)])));
}
