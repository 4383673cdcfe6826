import { metres } from "../../words/index.ts";

/** A body, or coordinates on it, for PROJ and in words. */
export interface BodyWords {
  readonly proj: string;
  readonly words: string;
}

/** A body of these half axes in metres; `primeDeg` is where its longitudes begin. */
export function bodyWords(major: number, minor: number, primeDeg: number): BodyWords {
  const length = (m: number): string => metres(Math.round(m), "given");
  return {
    proj: `+a=${major} +b=${minor}${primeDeg === 0 ? "" : ` +pm=${primeDeg}`}`,
    words:
      major === minor ? `a sphere of ${length(major)}` : `a body of ${length(major)} by ${length(minor)}`,
  };
}

/** Latitude and longitude in degrees. */
export function degreesOn(body: BodyWords): BodyWords {
  return { proj: `+proj=longlat ${body.proj} +no_defs`, words: `latitude and longitude on ${body.words}` };
}
