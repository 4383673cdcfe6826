/** The title that stands in a text that is no plan, or no whole one; null where there is none. */
export function titleIn(text: string): string | null {
  const found = /"title"\s*:\s*"((?:[^"\\]|\\.){1,200})"/.exec(text)?.[1];
  if (found === undefined) return null;
  try {
    return JSON.parse(`"${found}"`) as string;
  } catch {
    return null;
  }
}
