import { minutes } from "../clock.ts";
import { follows } from "../order.ts";
import type { LinkInput } from "../parts.ts";

/** The first sample is in hand before an instrument moves. */
const sampleFirst: LinkInput[] = [
  follows("quick-sample", "carry-bank", { needs: "none" }),
  follows("quick-sample", "carry-instruments", { needs: "none" }),
  {
    id: "quick-sample-one-only",
    type: "crew",
    tasks: ["quick-sample", "low-sun-panorama"],
    crew: "different",
  },
];

/** The station's working order. Bank in, lead in within 3 minutes, before its converter overheats; neither without the other. */
const backbone: LinkInput[] = [
  follows("unload-racks", "carry-bank"),
  follows("unload-racks", "carry-instruments"),
  follows("carry-bank", "set-node"),
  follows("set-node", "lower-bank"),
  follows("lower-bank", "connect-bank", { greatestS: minutes(3), needs: "both" }),
  follows("connect-bank", "aim-link"),
  follows("aim-link", "wake-command"),
  follows("lay-fibre", "wake-command"),
  follows("wake-command", "first-readings", { greatestS: minutes(240) }),
  // The command comes while the crew that would have to help is still outside.
  follows("lower-bank", "wake-command", { greatestS: minutes(150), needs: "both" }),
  follows("wake-command", "wake-by-hand", { greatestS: minutes(60) }),
  follows("aim-link", "station-record"),
];

/** Units come out on the second carry and are plugged into a levelled node. */
const units: LinkInput[] = [
  ...["lay-fibre", "set-sonde", "set-tiltmeter", "set-plates"].flatMap((unit) => [
    follows("carry-instruments", unit),
    follows("set-node", unit),
  ]),
  follows("carry-instruments", "raise-mast"),
  follows("raise-mast", "zero-mast", { greatestS: minutes(90), needs: "both" }),
  follows("set-tiltmeter", "free-tiltmeter", {
    leastS: minutes(20),
    greatestS: minutes(150),
    needs: "both",
  }),
  { id: "tiltmeter-one-hand", type: "crew", tasks: ["set-tiltmeter", "free-tiltmeter"], crew: "same" },
  follows("drill-sonde-hole", "set-sonde", { greatestS: minutes(120), needs: "both" }),
  { id: "sonde-one-outing", type: "eva", tasks: ["drill-sonde-hole", "set-sonde"] },
  follows("wake-command", "hydrogen-line"),
  { id: "steps-clear-of-tiltmeter", type: "apart", tasks: ["set-tiltmeter", "hydrogen-line"], leastM: 50 },
  { id: "plates-clear-of-drilling", type: "apart", tasks: ["set-plates", "drill-sonde-hole"], leastM: 80 },
];

/** Samples: the gas before anything pollutes it, the trench wall before it warms, the traverse in one go. */
const samples: LinkInput[] = [
  follows("gas-sample", "dig-trench", { needs: "none" }),
  follows("gas-sample", "drill-sonde-hole", { needs: "none" }),
  follows("dig-trench", "trench-samples", { greatestS: minutes(60), needs: "both" }),
  follows("pebble-documented", "pebble-rake", { needs: "none" }),
  follows("rim-survey-one", "rim-survey-two", { greatestS: minutes(150) }),
  { id: "rim-surveys-one-outing", type: "eva", tasks: ["rim-survey-one", "rim-survey-two"] },
  follows("grey-step-section", "grey-step-sounding", { needs: "none" }),
  { id: "panoramas-one-eye", type: "crew", tasks: ["low-sun-panorama", "high-sun-panorama"], crew: "same" },
];

/** The cases are closed after the last sample from near by; far ones do not fit behind the closing. */
const closing: LinkInput[] = [
  "trench-samples",
  "pebble-cores",
  "pebble-rake",
  "pebble-documented",
  "anvil-chips",
  "anvil-shadow-soil",
].map((sample) => follows(sample, "close-cases", { needs: "none" }));

/** Every condition between the demo plan's tasks. */
export const demoLinks: LinkInput[] = [...sampleFirst, ...backbone, ...units, ...samples, ...closing];
