/** Control characters but tab and the end of a line, and signs that turn the direction of what is written around them (Unicode, Bidi_Control). */
const HIDDEN =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]|\r(?!\n)/g;

/** True where a text holds nothing that is not seen and makes it read as something else. */
export function isSeen(text: string): boolean {
  return text.search(HIDDEN) < 0;
}

/** False where all signs of a text are spaces or of no width: it would read as if there were none. */
export function leavesMark(text: string): boolean {
  return text === "" || /[^\s\p{Default_Ignorable_Code_Point}]/u.test(text);
}

/** What a schema says of a text that does. */
export const SEEN_ONLY =
  "holds a sign that is not seen and can make it read as something else: write it anew";

/** The text with such signs shown as what they are: `U+202E`. */
export function withHiddenShown(text: string): string {
  return text.replace(
    HIDDEN,
    (sign) => `U+${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}`,
  );
}
