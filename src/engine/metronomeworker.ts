import { measured } from "./metronome.ts";

self.onmessage = () => self.postMessage(measured(() => performance.now()));
