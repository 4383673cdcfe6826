/** The plans that come with the program, by name. */
export const READY = ["demo", "small", "large"];

/** One that was asked for ahead and that nobody has taken yet. */
let ahead: { readonly name: string; readonly text: Promise<string> } | null = null;

/** The text of a plan that comes with the program; rejects where it cannot be had. */
export async function readyText(name: string): Promise<string> {
  const text = ahead?.name === name ? ahead.text : fetched(name);
  ahead = null;
  return text;
}

/** The same, and whoever asks next has it without fetching it again. */
export async function readyTextAhead(name: string): Promise<string> {
  const text = fetched(name);
  ahead = { name, text };
  return text;
}

async function fetched(name: string): Promise<string> {
  const answer = await fetch(`plans/${name}.json`);
  if (!answer.ok) throw new Error(`plans/${name}.json: ${answer.status} ${answer.statusText}`);
  return answer.text();
}
