import { MessageChannel } from "node:worker_threads";
import { expect, it } from "vitest";
import type { PrintingProgress } from "../../src/answers/index.ts";
import { connect } from "../../src/engine/client.ts";
import { makeCore } from "../../src/engine/core.ts";
import type { FromWorker, Port, ToWorker } from "../../src/engine/messages.ts";
import { serve } from "../../src/engine/server.ts";
import { printedDay } from "../../src/exchange/paper/leaving/printedday.ts";
import { at, task, tinyPlan } from "../check/tinyPlan.ts";

// EV1 may leave a for b until 5100 and would be too far from EV2, who stays at a until 5400, from 250 m on: walks are tried one by one.
const plan = tinyPlan({
  tasks: [task("x", "a"), task("y", "b"), task("z", "a", { duration: { likelyS: 2400 } })],
  placements: [at("x", 3000), at("y", 5400), at("z", 3000, ["ev2"])],
  rules: { separation: { greatestM: 250 } },
});

it("sends the printed moments over the wire as they are worked out at once, and tells how far it has come", async () => {
  const { port1, port2 } = new MessageChannel();
  let now = 0;
  const core = makeCore(() => (now += 1));
  serve(port2 as unknown as Port<FromWorker>, core, () => new Promise((resolve) => setImmediate(resolve)));
  const engine = connect(port1 as unknown as Port<ToWorker>, () => port1.close());
  const heard: PrintingProgress[] = [];
  expect(await engine.printed(plan, {}, { report: (progress) => heard.push(progress) })).toEqual(
    printedDay(plan),
  );
  expect(heard.at(-1)).toMatchObject({ of: 3 });
  expect(heard.every(({ walks, of }) => walks <= of)).toBe(true);
  // Walks that had to begin before a moment are not asked about: 3 lead to x, z and y, of which y's alone is to come.
  const later = await engine.printed(plan, { fromS: 4000 });
  expect([...later.leaves].map(([crew, own]) => [crew, [...own.keys()]])).toEqual([["ev1", ["y"]]]);
  engine.close();
});
