import type { SiteCourse, SiteLeg } from "../../answers/index.ts";
import { beside, mapX, mapY, passedAt, pointOn } from "../../editor/map/index.ts";
import type { Brush } from "../parts/canvas/brush.ts";
import { asidePx, crewStyle } from "./crewstyle.ts";
import { onMap } from "./paintground.ts";
import type { Picture } from "./picture.ts";

/** The ways of the day: each crew member's own colour and pattern, arrows forward, minutes where there is room. */
export function paintWays(brush: Brush, picture: Picture): void {
  const { walks, evas } = picture;
  if (!walks) return;
  const shown = walks.courses.filter((one) => evas.has(one.eva));
  for (const course of shown) paintCourse(brush, picture, course);
  if (picture.layers.times) paintMinutes(brush, picture);
}

const isWalk = (leg: SiteLeg): boolean => leg.course.length >= 6;

function paintCourse(brush: Brush, { frame, plan }: Picture, { crew, legs }: SiteCourse): void {
  const { ctx, palette } = brush;
  const style = crewStyle(plan, crew);
  const asideM = asidePx(plan, crew) / frame.pxPerM;
  const lines = legs.filter(isWalk).map((leg) => beside(leg.course, asideM));
  const path = onMap(frame, lines);
  ctx.lineCap = "butt";
  ctx.lineJoin = "round";
  ctx.setLineDash([]);
  ctx.strokeStyle = palette.raised;
  ctx.globalAlpha = 0.85;
  ctx.lineWidth = 5;
  ctx.stroke(path);
  ctx.globalAlpha = 1;
  ctx.strokeStyle = palette[style.colour];
  ctx.fillStyle = palette[style.colour];
  ctx.lineWidth = 2.5;
  ctx.setLineDash([...style.dash]);
  ctx.stroke(path);
  ctx.setLineDash([]);
  for (const leg of legs.filter(isWalk)) paintArrow(brush, frame, leg, asideM);
}

/** An arrow halfway, where the way is long enough on screen to carry one. */
function paintArrow({ ctx }: Brush, frame: Picture["frame"], leg: SiteLeg, asideM: number): void {
  const middleS = (leg.startS + leg.endS) / 2;
  const before = pointOn(leg.course, middleS - 1);
  const behind = pointOn(leg.course, middleS + 1);
  const east = behind.eastM - before.eastM;
  const north = behind.northM - before.northM;
  const length = Math.hypot(east, north);
  if (length === 0 || leg.walkM * frame.pxPerM < 46) return;
  const [u, v] = [east / length, north / length];
  const x = mapX(frame, before.eastM - v * asideM);
  const y = mapY(frame, before.northM + u * asideM);
  ctx.beginPath();
  ctx.moveTo(x + u * 7, y - v * 7);
  ctx.lineTo(x - u * 4 - v * 5, y + v * 4 - u * 5);
  ctx.lineTo(x - u * 4 + v * 5, y + v * 4 + u * 5);
  ctx.closePath();
  ctx.fill();
}

/** A minute mark on a way. */
export interface MinuteMark {
  readonly x: number;
  readonly y: number;
  readonly atS: number;
  readonly crew: string;
}

/** Minutes on the shown ways, as close as they can be read: whole multiples of 1, 2, 5 or 10 that are far enough apart. */
export function minuteMarks({ frame, plan, walks, evas }: Picture): MinuteMark[] {
  if (!walks) return [];
  return walks.courses
    .filter((one) => evas.has(one.eva))
    .flatMap(({ crew, legs }) => {
      const asideM = asidePx(plan, crew) / frame.pxPerM;
      return legs.filter(isWalk).flatMap((leg) => {
        const minutePx = (leg.walkM * frame.pxPerM * 60) / Math.max(60, leg.endS - leg.startS);
        const every = [1, 2, 5, 10].find((one) => one * minutePx >= SPACING_PX);
        if (every === undefined) return [];
        return passedAt([leg], every * 60).flatMap(({ eastM, northM, atS }): MinuteMark[] => {
          const ahead = pointOn(leg.course, atS + 1);
          const length = Math.hypot(ahead.eastM - eastM, ahead.northM - northM);
          if (length === 0) return [];
          const x = mapX(frame, eastM - ((ahead.northM - northM) / length) * asideM);
          const y = mapY(frame, northM + ((ahead.eastM - eastM) / length) * asideM);
          return [{ x, y, atS, crew }];
        });
      });
    });
}

const SPACING_PX = 70;

function paintMinutes({ ctx, palette }: Brush, picture: Picture): void {
  for (const { x, y, crew } of minuteMarks(picture)) {
    ctx.beginPath();
    ctx.arc(x, y, 3, 0, 2 * Math.PI);
    ctx.fillStyle = palette.raised;
    ctx.fill();
    ctx.beginPath();
    ctx.arc(x, y, 2, 0, 2 * Math.PI);
    ctx.fillStyle = palette[crewStyle(picture.plan, crew).colour];
    ctx.fill();
  }
}
