/**
 * The import table: what each room of src may import. Knowledge at the bottom, screens at the top, nothing
 * looks up. Types count as imports. DEVELOPERS.md shows the same table in words.
 */
const rooms = {
  kernel: [],
  physics: ["kernel"],
  terrain: ["kernel", "physics"],
  plan: ["kernel"],
  check: ["kernel", "plan", "physics", "terrain"],
  solver: ["kernel", "plan", "physics", "terrain"],
  dayline: ["kernel", "plan"],
  rehearsal: ["kernel", "plan"],
  exchange: ["kernel", "plan", "check", "rehearsal"],
  engine: ["kernel", "plan", "physics", "terrain", "check", "solver", "dayline", "exchange"],
  store: ["kernel", "plan", "check", "exchange", "rehearsal", "engine"],
  views: ["kernel", "plan", "dayline", "store"],
  lope: [
    "kernel",
    "plan",
    "physics",
    "terrain",
    "check",
    "solver",
    "dayline",
    "rehearsal",
    "exchange",
    "engine",
  ],
};

/** Outside packages a room may use; anything else is an error. */
const packages = {
  physics: ["astronomy-engine"],
  plan: ["zod"],
  rehearsal: ["zod"],
  dayline: ["d3-scale"],
  exchange: ["geotiff", "proj4", "pdf-lib", "@pdf-lib/standard-fonts"],
  store: ["zustand", "idb"],
  views: ["react", "react-dom", "date-fns", "zustand"],
};

const roomRules = Object.entries(rooms).map(([room, allowed]) => ({
  name: `${room}-imports-only-its-table-row`,
  severity: "error",
  from: { path: `^src/${room}/` },
  to: { path: "^src/", pathNot: [room, ...allowed].map((name) => `^src/${name}/`) },
}));

const packageRules = Object.keys(rooms)
  .filter((room) => room !== "lope")
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
    ...packageRules,
    {
      name: "store-knows-only-the-engine-protocol",
      severity: "error",
      from: { path: "^src/store/" },
      to: { path: "^src/engine/", pathNot: "^src/engine/protocol\\.ts$" },
    },
    {
      name: "only-the-worker-holds-maker-and-judge-together",
      severity: "error",
      from: { path: "^src/engine/", pathNot: "^src/engine/(worker|core)\\.ts$" },
      to: { path: "^src/solver/" },
    },
    { name: "no-circles", severity: "error", from: {}, to: { circular: true } },
    {
      name: "no-orphans",
      severity: "error",
      from: { orphan: true, pathNot: "\\.d\\.ts$" },
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
