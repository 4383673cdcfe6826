import { type ReactNode, useId, useLayoutEffect, useRef, useState } from "react";
import type { FromAnswer, ExplainRequest, FromTable } from "../../../answers/index.ts";
import type { Explained } from "../../../kernel/index.ts";
import type { AskedDay } from "../../../session/index.ts";
import { digits, grouped } from "../../../words/index.ts";
import { useAround } from "../../context.ts";
import { beside } from "./beside.ts";
import "./from.css";

/**
 * A button that says from what a figure comes: formula, inputs with units, source, and the lines it is the sum of. With
 * `children` it is the figure itself. What is known beforehand stands in `from`; `known` is worked out, and `ask` asked, when it
 * is opened.
 * Escape or a press elsewhere closes it.
 */
export function From(props: {
  readonly of: string;
  readonly from?: readonly Explained[];
  readonly known?: () => FromAnswer;
  readonly ask?: ExplainRequest;
  /** The day that is asked; the one on the screen when left out. */
  readonly day?: AskedDay;
  readonly children?: ReactNode;
}) {
  const { of, from, known, ask, day, children } = props;
  const { desk } = useAround();
  const id = useId();
  const box = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const [answer, setAnswer] = useState<FromAnswer | null | "asked">(null);
  const [open, setOpen] = useState(false);
  // An answer is longer than the word that it is being worked out: the box is put in place once it is there.
  useLayoutEffect(() => {
    const [at, to] = [button.current?.getBoundingClientRect(), box.current];
    if (!open) return;
    if (!at || !to) return;
    to.style.left = `${Math.max(8, Math.min(at.left, window.innerWidth - to.offsetWidth - 8))}px`;
    const { top, mostPx } = beside(
      at,
      to.scrollHeight + to.offsetHeight - to.clientHeight,
      window.innerHeight,
    );
    to.style.top = `${top}px`;
    to.style.maxHeight = `${mostPx}px`;
  }, [open, answer]);
  if (!ask && !known && (!from || from.length === 0)) return children ?? null;

  const toggled = (now: boolean): void => {
    setOpen(now);
    if (!now || !ask) return;
    setAnswer("asked");
    void desk.fromWhat(ask, day).then(setAnswer);
  };
  const name = `How it is worked out: ${of}`;

  return (
    <>
      <button
        ref={button}
        type="button"
        className={children ? "from-figure" : "from-button"}
        popoverTarget={id}
        {...(children ? { "aria-description": "How it is worked out" } : { "aria-label": name })}
        title="How it is worked out"
      >
        {children ?? "How it is worked out"}
      </button>
      <div
        ref={box}
        id={id}
        popover="auto"
        className={ask ? "from panel wide" : "from panel"}
        role="group"
        aria-label={name}
        tabIndex={0}
        onToggle={(event) => toggled(event.newState === "open")}
      >
        {open && <Said answer={ask ? answer : (known?.() ?? { figures: from ?? [], sums: null })} />}
      </div>
    </>
  );
}

function Said({ answer }: { readonly answer: FromAnswer | null | "asked" }) {
  if (answer === "asked") return <p className="note">Worked out again …</p>;
  if (answer === null) return <p>There is no such figure any more.</p>;
  return (
    <>
      {answer.says !== undefined && <p>{answer.says}</p>}
      {answer.figures.map((one, k) => (
        <section key={`${k} ${one.of}`}>
          <p className="from-title">
            {one.of}: {figure(one.value)} {one.unit}
          </p>
          {one.formula === "given" ? null : <Formula of={one} />}
          <p className="note">
            {one.formula === "given" ? "Given" : "Source"}: {one.source.replace(/\.$/, "")}.
          </p>
        </section>
      ))}
      {answer.sums && <Sums table={answer.sums} />}
    </>
  );
}

/** The arithmetic and what goes into it; a number that was given comes from nothing else. */
function Formula({ of: { formula, inputs } }: { readonly of: Explained }) {
  return (
    <>
      <p>
        <code>{formula}</code>
      </p>
      <dl>
        {inputs.map((input) => (
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
    </>
  );
}

function Sums({ table }: { readonly table: FromTable }) {
  return (
    <table>
      <caption>{table.caption}</caption>
      <thead>
        <tr>
          {table.head.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {table.rows.map((row, k) => (
          <tr key={k}>
            {row.map((cell, column) =>
              column === 0 ? (
                <th key={column} scope="row">
                  {cell}
                </th>
              ) : (
                <td key={column}>{cell}</td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A value as it goes into the formula: whole ones in groups, others to six figures. */
function figure(value: number): string {
  return Number.isInteger(value) ? grouped(value) : digits(value, 6);
}
