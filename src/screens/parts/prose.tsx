/** A figure with its percent sign or unit, and what bounds it: `>99 %`, `12 min`. */
const FIGURE = /([<>]?\d[\d.:]* (?:%|(?:min|km|kg|Wh|m|s|h|g|L)\b))/;

/** Running words in which no figure is parted from its percent sign or unit where a line ends. What is read or found in them is the same. */
export function Prose({ words }: { readonly words: string }) {
  return words.split(FIGURE).map((part, k) =>
    // Every other part is what they were split by.
    k % 2 === 0 ? (
      part
    ) : (
      <span key={k} className="whole-figure">
        {part}
      </span>
    ),
  );
}
