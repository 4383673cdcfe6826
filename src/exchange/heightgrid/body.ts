/** A body, or coordinates on it, for PROJ and in words. */
export interface BodyWords {
  readonly proj: string;
  readonly words: string;
}

/** A body of these half axes in metres; `primeDeg` is where its longitudes begin. */
export function bodyWords(major: number, minor: number, primeDeg: number): BodyWords {
  const km = (metres: number): string => `${Math.round(metres) / 1000} km`;
  return {
    proj: `+a=${major} +b=${minor}${primeDeg === 0 ? "" : ` +pm=${primeDeg}`}`,
    words: major === minor ? `a sphere of ${km(major)}` : `a body of ${km(major)} by ${km(minor)}`,
  };
}

/** Latitude and longitude in degrees. */
export function degreesOn(body: BodyWords): BodyWords {
  return { proj: `+proj=longlat ${body.proj} +no_defs`, words: `latitude and longitude on ${body.words}` };
}
