import { beside, mapX, mapY, passedAt, spotOn } from "../../dayline/map/index.ts";
import type { SiteCourse, SiteLeg } from "../../store/index.ts";
import { type Brush, font } from "../line/brush.ts";
import { asidePx, crewStyle } from "./crewstyle.ts";
import { haloed, onMap } from "./paintground.ts";
import type { Picture } from "./picture.ts";

/** The ways of the day: each crew member's own colour and pattern, arrows forward, minutes where there is room. */
export function paintWays(brush: Brush, picture: Picture): void {
  const { walks, evas } = picture;
  if (!walks) return;
  const shown = walks.courses.filter((one) => evas.has(one.eva));
  for (const course of shown) paintCourse(brush, picture, course);
  if (picture.layers.times) for (const course of shown) paintMinutes(brush, picture, course);
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
  const before = spotOn(leg.course, middleS - 1);
  const behind = spotOn(leg.course, middleS + 1);
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

/** Minutes on the way, as close as they can be read. */
function paintMinutes(brush: Brush, { frame, plan, time }: Picture, { crew, legs }: SiteCourse): void {
  const { ctx, palette } = brush;
  // About 54 m a minute.
  const minutePx = 54 * frame.pxPerM;
  const every = [1, 2, 5, 10].find((one) => one * minutePx >= 64);
  if (every === undefined) return;
  const style = crewStyle(plan, crew);
  const asideM = asidePx(plan, crew) / frame.pxPerM;
  ctx.font = font(11, 600);
  ctx.textBaseline = "middle";
  ctx.textAlign = "left";
  for (const leg of legs.filter(isWalk)) {
    for (const { eastM, northM, atS } of passedAt([leg], every * 60)) {
      const ahead = spotOn(leg.course, atS + 1);
      const length = Math.hypot(ahead.eastM - eastM, ahead.northM - northM);
      if (length === 0) continue;
      const u = (ahead.eastM - eastM) / length;
      const v = (ahead.northM - northM) / length;
      const x = mapX(frame, eastM - v * asideM);
      const y = mapY(frame, northM + u * asideM);
      if (x < 0 || y < 0 || x > frame.widthPx || y > frame.heightPx) continue;
      ctx.beginPath();
      ctx.arc(x, y, 2.5, 0, 2 * Math.PI);
      ctx.fillStyle = palette[style.colour];
      ctx.fill();
      ctx.textAlign = v > 0 ? "right" : "left";
      haloed(brush, time(atS), x - v * 8, y - u * 8 + 1, palette[style.colour]);
    }
  }
}
