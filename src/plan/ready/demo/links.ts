import { minutes } from "../clock.ts";
import { follows } from "../order.ts";
import type { LinkInput } from "../parts.ts";

/** The first sample is in hand before an instrument moves. */
const sampleFirst: LinkInput[] = [
  follows("quick-sample", "carry-station", { needs: "none" }),
  follows("quick-sample", "carry-units", { needs: "none" }),
  {
    id: "quick-sample-one-only",
    type: "crew",
    tasks: ["quick-sample", "low-sun-panorama"],
    crew: "different",
  },
];

/** The station's working order. Element in, plug in within 3 minutes; neither without the other. */
const backbone: LinkInput[] = [
  follows("unload-pallets", "carry-station"),
  follows("unload-pallets", "carry-units"),
  follows("carry-station", "level-hub"),
  follows("level-hub", "fuel-generator"),
  follows("fuel-generator", "connect-generator", { greatestS: minutes(3), needs: "both" }),
  follows("connect-generator", "point-antenna"),
  follows("point-antenna", "command-on"),
  follows("lay-geophones", "command-on"),
  follows("command-on", "data-check", { greatestS: minutes(240) }),
  // The command comes while the crew that would have to help is still outside.
  follows("fuel-generator", "command-on", { greatestS: minutes(150), needs: "both" }),
  follows("command-on", "hand-switch-on", { greatestS: minutes(60) }),
  follows("point-antenna", "station-photographs"),
];

/** Units come out on the second carry and are plugged into a levelled hub. */
const units: LinkInput[] = [
  ...["lay-geophones", "set-heat-probe", "set-gravimeter", "set-dust-counter"].flatMap((unit) => [
    follows("carry-units", unit),
    follows("level-hub", unit),
  ]),
  follows("carry-units", "set-reflector"),
  follows("set-reflector", "align-reflector", { greatestS: minutes(90), needs: "both" }),
  follows("set-gravimeter", "level-gravimeter", {
    leastS: minutes(20),
    greatestS: minutes(150),
    needs: "both",
  }),
  { id: "gravimeter-one-hand", type: "crew", tasks: ["set-gravimeter", "level-gravimeter"], crew: "same" },
  follows("drill-heat-hole", "set-heat-probe", { greatestS: minutes(120), needs: "both" }),
  { id: "heat-flow-one-outing", type: "eva", tasks: ["drill-heat-hole", "set-heat-probe"] },
  follows("command-on", "thump-line"),
  { id: "blows-clear-of-gravimeter", type: "apart", tasks: ["set-gravimeter", "thump-line"], leastM: 50 },
  { id: "dust-clear-of-drilling", type: "apart", tasks: ["set-dust-counter", "drill-heat-hole"], leastM: 80 },
];

/** Samples: the gas before anything pollutes it, the trench wall before it warms, the traverse in one go. */
const samples: LinkInput[] = [
  follows("gas-sample", "dig-trench", { needs: "none" }),
  follows("gas-sample", "drill-heat-hole", { needs: "none" }),
  follows("dig-trench", "trench-samples", { greatestS: minutes(60), needs: "both" }),
  follows("pebble-documented", "pebble-rake", { needs: "none" }),
  follows("rim-survey-one", "rim-survey-two", { greatestS: minutes(150) }),
  { id: "rim-surveys-one-outing", type: "eva", tasks: ["rim-survey-one", "rim-survey-two"] },
  follows("grey-step-section", "grey-step-gravity", { needs: "none" }),
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
