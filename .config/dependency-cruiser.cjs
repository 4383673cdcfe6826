/**
 * The import table: what each room of src may import. Knowledge at the bottom, screens at the top, nothing
 * looks up. Types count as imports. DEVELOPERS.md shows the same table in words.
 */
const rooms = {
  kernel: [],
  physics: ["kernel"],
  terrain: ["kernel", "physics"],
  plan: ["kernel"],
  words: ["kernel", "plan"],
  rules: ["kernel", "plan"],
  answers: ["kernel", "plan", "words", "rules"],
  check: ["kernel", "plan", "words", "physics", "terrain", "rules", "answers"],
  solver: ["kernel", "plan", "words", "physics", "terrain", "rules", "answers"],
  editor: ["kernel", "plan", "words"],
  rehearsal: ["kernel", "plan", "words"],
  exchange: ["kernel", "plan", "words", "rules", "answers", "check", "rehearsal"],
  engine: [
    "kernel",
    "plan",
    "words",
    "physics",
    "terrain",
    "rules",
    "answers",
    "check",
    "solver",
    "editor",
    "exchange",
  ],
  session: ["kernel", "plan", "words", "rules", "answers", "check", "exchange", "rehearsal", "engine"],
  screens: ["kernel", "plan", "words", "rules", "answers", "editor", "session"],
  cli: [
    "kernel",
    "plan",
    "words",
    "physics",
    "terrain",
    "rules",
    "answers",
    "check",
    "solver",
    "editor",
    "rehearsal",
    "exchange",
    "engine",
  ],
};

/** The rooms inside the solver: each may import those named, and nothing else of the solver. Its own files at the top tie them together. */
const solverRooms = {
  problem: [],
  network: ["problem"],
  search: ["problem", "network"],
  tours: ["problem", "network", "search"],
  bound: ["problem", "network"],
  simulate: ["problem", "network"],
  question: ["problem", "network", "search", "simulate"],
  wish: ["problem", "network", "search", "simulate"],
  project: ["problem", "search"],
};

/**
 * The folders of the screens: each may import those named, the files at the top of screens, and nothing else of them. No screen
 * imports another; what several need is in `parts`, and the plan's fields as they are written are in `fields`. The day is one
 * screen in four folders; `beside` draws the site's map at the side of the day and is wired outside.
 */
const screenRooms = {
  parts: ["theme"],
  theme: [],
  fields: ["parts"],
  day: ["parts", "theme", "bench", "findings", "margins"],
  bench: ["parts", "day"],
  findings: ["parts", "day"],
  margins: ["parts", "theme", "day"],
  task: ["parts", "fields"],
  site: ["parts", "theme"],
  beside: ["parts", "theme", "site"],
  setup: ["parts", "fields"],
};

/** Outside packages a room may use; anything else is an error. */
const packages = {
  physics: ["astronomy-engine"],
  plan: ["zod"],
  words: ["date-fns"],
  rehearsal: ["zod"],
  editor: ["d3-scale"],
  exchange: ["geotiff", "proj4", "pdfkit", "fflate", "saxes", "papaparse"],
  session: ["zustand", "idb"],
  screens: ["react", "react-dom", "zustand", "@fontsource"],
};

const roomRules = Object.entries(rooms).map(([room, allowed]) => ({
  name: `${room}-imports-only-its-table-row`,
  severity: "error",
  from: { path: `^src/${room}/` },
  to: { path: "^src/", pathNot: [room, ...allowed].map((name) => `^src/${name}/`) },
}));

const solverRoomRules = Object.entries(solverRooms).map(([room, allowed]) => ({
  name: `solver-${room}-imports-only-its-table-row`,
  severity: "error",
  from: { path: `^src/solver/${room}/` },
  to: { path: "^src/solver/", pathNot: [room, ...allowed].map((name) => `^src/solver/${name}/`) },
}));

const screenRoomRules = [
  ...Object.entries(screenRooms).map(([room, allowed]) => ({
    name: `screens-${room}-imports-only-its-table-row`,
    severity: "error",
    from: { path: `^src/screens/${room}/` },
    to: {
      path: "^src/screens/[^/]+/",
      pathNot: [room, ...allowed].map((name) => `^src/screens/${name}/`),
    },
  })),
  {
    name: "no-screen-imports-another",
    severity: "error",
    from: { path: "^src/screens/([^/]+)/", pathNot: `^src/screens/(${Object.keys(screenRooms).join("|")})/` },
    to: { path: "^src/screens/[^/]+/", pathNot: ["^src/screens/$1/", "^src/screens/(parts|theme)/"] },
  },
  {
    name: "only-the-app-joins-screens",
    severity: "error",
    from: { path: "^src/screens/[^/]+$", pathNot: "^src/screens/app\\.tsx$" },
    to: { path: "^src/screens/[^/]+/", pathNot: "^src/screens/(parts|theme)/" },
  },
];

const packageRules = Object.keys(rooms)
  .filter((room) => room !== "cli")
  .map((room) => ({
    name: `${room}-uses-only-its-packages`,
    severity: "error",
    from: { path: `^src/${room}/` },
    to: {
      path: "node_modules",
      pathNot: (packages[room] ?? []).map(
        (name) => `node_modules/(@types/)?${name.replace("/", "\\/")}(/|$)`,
      ),
    },
  }));

module.exports = {
  forbidden: [
    ...roomRules,
    ...solverRoomRules,
    ...screenRoomRules,
    ...packageRules,
    {
      name: "session-knows-only-the-engine-calls",
      severity: "error",
      from: { path: "^src/session/" },
      to: { path: "^src/engine/", pathNot: "^src/engine/calls\\.ts$" },
    },
    {
      name: "only-the-worker-holds-maker-and-judge-together",
      severity: "error",
      from: { path: "^src/engine/", pathNot: "^src/engine/(core|packwork|wishwork)\\.ts$" },
      to: { path: "^src/solver/" },
    },
    { name: "no-circles", severity: "error", from: {}, to: { circular: true } },
    {
      name: "no-orphans",
      severity: "error",
      // The offline worker is built as a file of its own and stands alone.
      from: { orphan: true, pathNot: "(\\.d\\.ts|^src/offline\\.ts)$" },
      to: {},
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "types", "default"] },
  },
};
