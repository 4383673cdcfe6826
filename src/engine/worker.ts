import { makeCore } from "./core.ts";
import { serve } from "./server.ts";

// A message to oneself is handled behind those that wait already, and unlike a timer it is not held back.
const gate = new MessageChannel();
const waiting: (() => void)[] = [];
gate.port1.onmessage = () => waiting.shift()?.();
const breathe = (): Promise<void> =>
  new Promise((resolve) => {
    waiting.push(resolve);
    gate.port2.postMessage(null);
  });

serve(
  self as never,
  makeCore(() => performance.now() / 1000),
  breathe,
);
