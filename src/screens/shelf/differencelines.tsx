import { counted, type DifferenceLine } from "../../words/index.ts";

/** Differences by what they are about. */
export function DifferenceLines({
  lines,
  label = "Differences",
}: {
  readonly lines: readonly DifferenceLine[];
  readonly label?: string;
}) {
  if (lines.length === 0) return <p className="difference-none">The two are the same.</p>;
  const about = [...new Set(lines.map((line) => line.about))];
  return (
    <div className="difference-lines" role="region" aria-label={label}>
      <p className="note">{counted(lines.length, "difference")}.</p>
      <dl>
        {about.map((name) => (
          <div key={name}>
            <dt>{name}</dt>
            {lines
              .filter((line) => line.about === name)
              .map(({ sentence }) => (
                <dd key={sentence}>{sentence}</dd>
              ))}
          </div>
        ))}
      </dl>
    </div>
  );
}
