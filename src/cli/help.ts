/** What the command can do. */
export const HELP = `Lopeline without a screen. Planning and training aid; flight rules and the authorities in charge decide.

  lope check plan.json [--json]
      Judges the plan's schedule: a table, or one JSON object.
  lope pack plan.json --out out.json [--seconds 2] [--seed 1] [--iterations N] [--prove S] [--workers N]
      Fills the day and writes the plan with its schedule. With --iterations and no --seconds the
      same seed gives the same schedule on every machine. Breaking off (Ctrl-C) writes the best so far. --prove: seconds
      beyond the search for proving how much is possible at most (2 at most when left out).
      --workers: threads that search side by side from seeds of their own and tell each other of their days; the best is taken.
      --holds 0.9, --safe 0.99: packs for the most worth done on average with at least these chances of every must-do
      done and of everybody home, and writes them and the crew's caution into the plan; says what no crew inside its
      limits does more of on average, by routes with --prove, else by crew time alone.
  lope curve plan.json [--seconds 30] [--seed 1] [--iterations N] [--out out.json] [--json]
      Worth on average against the chance of every must-do done: a day for each of several wishes, from one search.
      --out writes the plan with each as a variant, which sets the crew's caution that its chances are counted with.
  lope grid plan.json --out out.json
      Puts the starts of the plan's schedule on its grid, whole minutes by default: same tasks, order and crew,
      judged again. What cannot be moved is told.
  lope heights plan.json --from grid.tif [--from grid.prj] [--from grid.tif.msk] --out out.json [--unit m|km|cm|ft|us-ft]
      [--projection "+proj=..."] [--up DEG] [--lander x,y] [--reach M] [--spacing M] [--unknown V]
      The plan with the heights of a GeoTIFF or ASCII grid as its ground, and what was taken: unit, turn, extent, least and
      greatest height, share unknown. A .prj and .msk beside the file are read when they are given. What the file leaves
      open has to be said: the unit of its heights; its projection, or the bearing of its upward side and the lander in it.
  lope cuff plan.json --out file.pdf [--crew id]... [--paper cuff|a4|letter] [--duplex] [--reading] [--rings] [--no-shed]
      Writes cuff checklists as PDF: pages of 98 x 132 mm, or four to a sheet with cut marks, to be cut as a stack whose piles
      are laid on each other. --duplex: both sides, turned over the long edge. --reading: pages in order on each sheet.
      --rings: crosses where the rings go. --no-shed leaves out what to drop if late, and a page says so.
  lope sheet KIND plan.json --out file.pdf [--paper a4|letter|cuff] [--punched] [--seed 1]
      Writes a sheet of the plan's schedule as PDF. KIND: day (timeline on one sheet), console (each EVA minute by minute),
      gauges (by task end), late (what to leave out), stations (tasks by place, map of ways), site (map), stowage (tools,
      what goes out and returns), manifest (cases, bags, masses), left-out (and why), rules (value, source, owner), scenario
      and debrief (of a rehearsal that the app saved, given instead of the plan; of a plan the day as its crew plays it by itself,
      durations drawn by --seed).
      --punched: with room for two holes. --paper cuff: pages of 98 x 132 mm.
  lope export KIND plan.json --out file
      Writes the plan for other programs. KIND: plan (JSON), page (the day as HTML), tasks, links, schedule, margins, findings, bench,
      said (comments and sign-offs; all CSV), calendar (iCalendar), geojson, kml, schema (JSON Schema), or zip for all of them.
  lope diff before.json after.json [--out file.pdf] [--paper a4|letter|cuff] [--no-shed]
      What is otherwise between two revisions, and which pages of cuff checklists and sheets have to be replaced. --out writes
      the sheet of changes and the pages to replace, with bars beside what is new.
  lope odds plan.json [--days 2000] [--seed 1] [--shape pert|triangular] [--json]
      The chances of everybody home, of every must-do done and of nothing missed, from simulated days, with their
      sampling error; how the crew is taken to act, with what the day comes to otherwise; what is missed and why.
  lope shed plan.json [--json]
      What to drop when 5 to 45 min late leaving each task, and what to get ahead with when early.
  lope rehearse plan.json [--seed 1] [--at S] [--csv | --json]
      Plays the day once, with drawn durations, and holds planned against actual. --at: plays it to that
      moment, seconds from touchdown; where everybody outside is then, how soon and how late they can be
      inside, and when each must start home.
  lope why plan.json [--task ID] [--seconds 3] [--seed 1] [--json] [--take N --out out.json]
      Why a task is not on the day, or without --task what is wrong with the schedule: where it comes
      closest, what stands against it, and what could be given up, cheapest first. --take writes the
      plan with the N-th of these.
  lope from plan.json --of oxygen|co2|water|battery|walkback|heat --eva ID --crew ID [--at S] [--json]
  lope from plan.json --of worth|walked | --task ID | --finding N | --rule ID [--json]
      From what a figure of the plan's schedule comes: formula, inputs, source, and the lines it is
      the sum of. --finding: what need and have of the N-th finding are worked out from, as check lists them. --at: seconds from touchdown; without it at ingress, or where there is least to spare.
  lope plans
      Writes the ready plans and the plan format's JSON Schema into public/.
  lope help

With npm: npm run -s lope -- check plan.json
Exit code: 0 done, 1 the plan has breaches, 2 bad input or use, or the answer cannot be written, 3 a defect of the
program. Ctrl-C ends a verb at once with 130 and nothing written; pack, curve and why answer with what they have found.
No verb changes its input file.
`;
