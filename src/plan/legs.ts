import type { Fault } from "./fault.ts";
import type { Leg } from "./site.ts";

/** Faults of given legs among each other: from a place to itself, or a way whose numbers another leg gives already. */
export function legFaults(legs: readonly Leg[]): Fault[] {
  const faults: Fault[] = [];
  const given = new Map<string, number>();
  legs.forEach((leg, i) => {
    const path = `site.legs.${i}`;
    if (leg.from === leg.to) {
      faults.push({ path, message: `leads from "${leg.from}" to itself` });
      return;
    }
    const ways = [[leg.from, leg.to] as const, ...(leg.bothWays ? [[leg.to, leg.from] as const] : [])];
    for (const [from, to] of ways) {
      const before = given.get(`${from} ${to}`);
      if (before === undefined) continue;
      faults.push({
        path,
        message: `gives the way from "${from}" to "${to}" a second time: site.legs.${before} gives it already`,
      });
      break;
    }
    for (const [from, to] of ways) if (!given.has(`${from} ${to}`)) given.set(`${from} ${to}`, i);
  });
  return faults;
}
