import { mapX, mapY, pannedMap, groundAt, zoomedMap } from "../../editor/map/index.ts";
import type { SiteCommands } from "./commands.ts";
import type { Picture } from "./picture.ts";
import type { SiteViewStore } from "./siteviewstate.ts";

/** What the hand may do; without `carry` it moves no place. */
type HandCommands = Pick<SiteCommands, "choose" | "commit" | "cancel" | "extent"> &
  Partial<Pick<SiteCommands, "carry">>;

/**
 * Pointers on the map: one drags the ground or a place, two pinch, the wheel zooms. A finger moves a place only when it
 * was chosen before, so that who pans with a finger never moves one by mistake.
 */
export class MapHand {
  private readonly element: HTMLElement;
  private readonly view: SiteViewStore;
  private readonly commands: HandCommands;
  private readonly picture: () => Picture;
  private readonly down = new Map<number, { x: number; y: number }>();
  private press: { x: number; y: number; place: string | null; moved: boolean } | null = null;

  constructor(element: HTMLElement, view: SiteViewStore, commands: HandCommands, picture: () => Picture) {
    this.element = element;
    this.view = view;
    this.commands = commands;
    this.picture = picture;
  }

  listen(): () => void {
    const { element } = this;
    const pairs = [
      ["pointerdown", this.onDown],
      ["pointermove", this.onMove],
      ["pointerup", this.onUp],
      ["pointercancel", this.onCancel],
      ["wheel", this.onWheel],
    ] as const;
    // The wheel zooms the map, not the page.
    for (const [name, listen] of pairs)
      element.addEventListener(name, listen as EventListener, { passive: false });
    return () => {
      for (const [name, listen] of pairs) element.removeEventListener(name, listen as EventListener);
    };
  }

  private readonly at = (event: MouseEvent): { x: number; y: number } => {
    const box = this.element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };

  private readonly onDown = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    const point = this.at(event);
    this.element.setPointerCapture(event.pointerId);
    this.down.set(event.pointerId, point);
    if (this.down.size > 1) {
      this.commands.cancel();
      this.press = null;
      return;
    }
    const found = this.placeUnder(point, event.pointerType === "mouse" ? 12 : 24);
    const carries =
      this.commands.carry !== undefined &&
      (event.pointerType === "mouse" || found === this.view.getState().place);
    this.press = { ...point, place: carries ? found : null, moved: false };
  };

  private readonly onMove = (event: PointerEvent): void => {
    const before = this.down.get(event.pointerId);
    const point = this.at(event);
    if (!before) {
      const over = event.pointerType === "mouse" && this.placeUnder(point, 12) !== null;
      this.element.dataset["over"] = over ? "place" : "";
      return;
    }
    if (this.down.size === 2) this.pinch(event.pointerId, before, point);
    else if (this.press) this.drag(before, point);
    this.down.set(event.pointerId, point);
  };

  private drag(before: { x: number; y: number }, point: { x: number; y: number }): void {
    const press = this.press!;
    if (!press.moved && Math.hypot(point.x - press.x, point.y - press.y) < 5) return;
    const picture = this.picture();
    if (press.place === null) {
      const from = press.moved ? before : press;
      press.moved = true;
      const { frame } = picture;
      this.view.setState({
        frame: pannedMap(frame, point.x - from.x, point.y - from.y, this.commands.extent()),
      });
      return;
    }
    press.moved = true;
    const ground = groundAt(picture.frame, point.x, point.y);
    this.commands.carry?.(press.place, "pointer", Math.round(ground.eastM), Math.round(ground.northM));
  }

  private pinch(id: number, before: { x: number; y: number }, point: { x: number; y: number }): void {
    const [, other] = [...this.down].find(([key]) => key !== id)!;
    const was = Math.hypot(before.x - other.x, before.y - other.y);
    const is = Math.hypot(point.x - other.x, point.y - other.y);
    if (was < 8 || is < 8) return;
    const middle = { x: (point.x + other.x) / 2, y: (point.y + other.y) / 2 };
    const { frame } = this.picture();
    const panned = pannedMap(
      frame,
      (point.x - before.x) / 2,
      (point.y - before.y) / 2,
      this.commands.extent(),
    );
    this.view.setState({ frame: zoomedMap(panned, is / was, middle.x, middle.y) });
  }

  private readonly onUp = (event: PointerEvent): void => {
    const point = this.down.get(event.pointerId);
    this.down.delete(event.pointerId);
    const { press } = this;
    this.press = null;
    if (!point || !press) return;
    if (press.moved) {
      if (press.place !== null) this.commands.commit();
      return;
    }
    this.commands.choose(this.placeUnder(point, event.pointerType === "mouse" ? 12 : 24));
  };

  private readonly onCancel = (event: PointerEvent): void => {
    this.down.delete(event.pointerId);
    this.press = null;
    this.commands.cancel();
  };

  private readonly onWheel = (event: WheelEvent): void => {
    event.preventDefault();
    const { x, y } = this.at(event);
    const lines = event.deltaMode === 1 ? 16 : 1;
    const factor = Math.exp((-event.deltaY * lines) / (event.ctrlKey ? 120 : 400));
    this.view.setState({ frame: zoomedMap(this.picture().frame, factor, x, y) });
  };

  /** The place nearest to a point, within so many pixels; null where there is none. */
  private placeUnder({ x, y }: { x: number; y: number }, withinPx: number): string | null {
    const { frame, plan } = this.picture();
    let best: { id: string; away: number } | null = null;
    for (const { id, eastM, northM } of plan.site.places) {
      const away = Math.hypot(mapX(frame, eastM) - x, mapY(frame, northM) - y);
      if (away <= withinPx && (!best || away < best.away)) best = { id, away };
    }
    return best?.id ?? null;
  }
}
