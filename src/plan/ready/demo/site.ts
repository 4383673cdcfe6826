import type { SiteInput } from "../parts.ts";

/**
 * Tarrow Shelf, an invented site in the southern highlands of the Moon's near side: a level shelf with a crater of
 * 560 m across to the north-east (Osier), a low dome to the south and a bright ray to the west. All places lie
 * between 60 m and 1.6 km from the lander in a straight line; the instruments stand 105 to 260 m out, in the west.
 *
 * The line from the lander to the far lip crosses the crater, so the way there bends round its wall by the shoulder.
 */
export const tarrowShelf: SiteInput = {
  name: "Tarrow Shelf",
  latDeg: -41.83,
  lonDeg: 52.37,
  elevationM: -640,
  notes:
    "Invented site. Latitude, longitude and date are real enough for the sun to be computed; the ground is made from a recipe.",
  places: [
    { id: "lander", name: "Lander Dunnock", kind: "lander", eastM: 0, northM: 0 },
    { id: "first-ground", name: "First Ground", kind: "station", eastM: 56, northM: 28, upM: 0 },
    { id: "quiet-ground", name: "Quiet Ground", kind: "station", eastM: 150, northM: -185, upM: -2 },
    { id: "shade-hollow", name: "Shade Hollow", kind: "station", eastM: 95, northM: -118, upM: -3 },

    { id: "heat-well", name: "Heat well", kind: "deployment", eastM: -150, northM: 60, upM: 1 },
    { id: "node-pad", name: "Node pad", kind: "deployment", eastM: -138, northM: 66, upM: 1 },
    { id: "fibre-head", name: "Fibre line, head", kind: "deployment", eastM: -140, northM: 88, upM: 1 },
    {
      id: "fibre-tail",
      name: "Fibre line, tail",
      kind: "deployment",
      eastM: -182,
      northM: 168,
      upM: 3,
    },
    { id: "sonde-pad", name: "Sonde pad", kind: "deployment", eastM: -168, northM: 92, upM: 1 },
    { id: "mast-pad", name: "Charge mast pad", kind: "deployment", eastM: -118, northM: 40, upM: 0 },
    { id: "tilt-pad", name: "Tiltmeter pad", kind: "deployment", eastM: -172, northM: 38, upM: 1 },
    { id: "plate-pad", name: "Witness plate pad", kind: "deployment", eastM: -103, northM: 22, upM: 0 },

    { id: "pebble-row", name: "Pebble Row", kind: "station", eastM: 320, northM: 210, upM: 5 },
    { id: "anvil-block", name: "Anvil Block", kind: "station", eastM: 520, northM: -90, upM: 4 },
    { id: "osier-near-lip", name: "Osier, near lip", kind: "station", eastM: 860, northM: 480, upM: 34 },
    { id: "osier-shoulder", name: "Osier, shoulder", kind: "station", eastM: 1010, northM: 640, upM: 46 },
    { id: "osier-far-lip", name: "Osier, far lip", kind: "station", eastM: 1180, northM: 1060, upM: 58 },
    { id: "cowl-foot", name: "Cowl Dome, foot", kind: "station", eastM: -300, northM: -640, upM: -6 },
    { id: "cowl-crest", name: "Cowl Dome, crest", kind: "station", eastM: -380, northM: -900, upM: 41 },
    { id: "pale-ray", name: "Pale Ray", kind: "station", eastM: -720, northM: 130, upM: 7 },
    { id: "grey-step", name: "Grey Step", kind: "station", eastM: -1050, northM: 260, upM: 19 },
  ],
  keepOuts: [
    {
      id: "osier-wall",
      name: "Inner wall of Osier",
      kind: "walking",
      shape: { type: "disc", eastM: 760, northM: 860, radiusM: 280 },
    },
    {
      id: "blocky-ground",
      name: "Blocky ground",
      kind: "walking",
      shape: {
        type: "polygon",
        points: [
          { eastM: 385, northM: 40 },
          { eastM: 455, northM: 35 },
          { eastM: 470, northM: 90 },
          { eastM: 400, northM: 105 },
        ],
      },
    },
    {
      id: "well-heat",
      name: "Hot well",
      kind: "hot",
      shape: { type: "disc", eastM: -150, northM: 60, radiusM: 6 },
      afterTask: "lower-bank",
      exemptTasks: ["connect-bank"],
    },
  ],
  legs: [
    // Round the blocky ground by its eastern side, as the planner has drawn it on the orbital picture.
    { from: "pebble-row", to: "anvil-block", distanceM: 440, durationS: 500, walkbackPeakM: 600 },
  ],
};
