import { useId, useRef } from "react";
import { grouped } from "../../dayline/index.ts";
import type { Explained } from "../../store/index.ts";

/** A button that says from what a figure comes: formula, inputs with units, source. Escape or a press elsewhere closes it. */
export function From(props: { readonly of: string; readonly from: readonly Explained[] }) {
  const id = useId();
  const box = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  if (props.from.length === 0) return null;
  const place = (): void => {
    const [from, to] = [button.current?.getBoundingClientRect(), box.current];
    if (!from || !to) return;
    to.style.left = `${Math.max(8, Math.min(from.left, window.innerWidth - to.offsetWidth - 8))}px`;
    const below = from.bottom + 4;
    const fits = below + to.offsetHeight < window.innerHeight - 8;
    to.style.top = `${fits ? below : Math.max(8, from.top - to.offsetHeight - 4)}px`;
  };
  return (
    <>
      <button
        ref={button}
        type="button"
        className="from-button"
        popoverTarget={id}
        aria-label={`From what: ${props.of}`}
        title="From what?"
      >
        From what?
      </button>
      <div
        ref={box}
        id={id}
        popover="auto"
        className="from panel"
        role="group"
        aria-label={`From what: ${props.of}`}
        onToggle={place}
      >
        {props.from.map((one) => (
          <section key={one.of}>
            <p className="from-title">
              {one.of}: {figure(one.value)} {one.unit}
            </p>
            <p>
              <code>{one.formula}</code>
            </p>
            <dl>
              {one.inputs.map((input) => (
                <div key={input.name}>
                  <dt>
                    <code>{input.name}</code>
                  </dt>
                  <dd>
                    {figure(input.value)} {input.unit}
                  </dd>
                </div>
              ))}
            </dl>
            <p className="note">Source: {one.source}.</p>
          </section>
        ))}
      </div>
    </>
  );
}

/** A value as it goes into the formula: whole ones in groups, others to six figures. */
function figure(value: number): string {
  if (Number.isInteger(value)) return value < 0 ? `−${grouped(-value)}` : grouped(value);
  return String(Number(value.toPrecision(6))).replace("-", "−");
}
