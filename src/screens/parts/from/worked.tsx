import type { FromAnswer, FromTable } from "../../../answers/index.ts";
import type { Explained } from "../../../kernel/index.ts";
import { digits, grouped } from "../../../words/index.ts";

/** What a figure comes from: what is said of it, each part with its formula, inputs and source, and the lines that it is the sum of. */
export function Worked({ answer }: { readonly answer: FromAnswer }) {
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
