/**
 * The faces of all paper: static cuts of Encode Sans (SIL Open Font License 1.1), semi-condensed for text and condensed where room is short, in the
 * two weights that came through two copies of a copy light and dark. Each comes in two files: Latin, and what other languages
 * write with Latin letters.
 */
export const FACES = {
  plain: { family: "Encode Sans Semi Condensed", cut: "encode-sans-semi-condensed", weight: 600 },
  bold: { family: "Encode Sans Semi Condensed", cut: "encode-sans-semi-condensed", weight: 700 },
  tight: { family: "Encode Sans Condensed", cut: "encode-sans-condensed", weight: 600 },
  tightBold: { family: "Encode Sans Condensed", cut: "encode-sans-condensed", weight: 700 },
} as const;

export type FaceName = keyof typeof FACES;

export const FACE_NAMES = Object.keys(FACES) as readonly FaceName[];

/** The two files of a face, the first one asked first. */
export const SUBSETS = ["latin", "latin-ext"] as const;

export type Subset = (typeof SUBSETS)[number];

/** A file of a face as its package names it. */
export function faceFile(name: FaceName, subset: Subset): string {
  const { cut, weight } = FACES[name];
  return `@fontsource/${cut}/files/${cut}-${subset}-${weight}-normal.woff`;
}

/** Gives the bytes of a file that `faceFile` names: from a disk or a server. */
export type FaceSource = (file: string) => Promise<Uint8Array>;
