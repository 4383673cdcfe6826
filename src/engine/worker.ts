import { onPulse } from "../kernel/index.ts";
import { makeCore } from "./core.ts";
import { serve } from "./server.ts";

// A message to oneself is handled behind those that wait already, and unlike a timer it is not held back.
const gate = new MessageChannel();
const waiting: (() => void)[] = [];
gate.port1.onmessage = () => waiting.shift()?.();
const yieldToHost = (): Promise<void> =>
  new Promise((resolve) => {
    waiting.push(resolve);
    gate.port2.postMessage(null);
  });

// Long work says now and then that it goes on: a message goes out though none is let in.
const PULSE_MS = 250;
let pulsedMs = performance.now();
onPulse(() => {
  const nowMs = performance.now();
  if (nowMs - pulsedMs < PULSE_MS) return;
  pulsedMs = nowMs;
  self.postMessage({ type: "pulse" });
});

serve(
  self as never,
  makeCore(() => performance.now() / 1000),
  yieldToHost,
);
// Its code is there: from now on silence means something.
self.postMessage({ type: "pong" });
