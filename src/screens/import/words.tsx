import type { Question, Reading } from "../../session/lists.ts";
import { counted } from "../../words/index.ts";

/** Words that are none of the plan's, each asked about once, with what it is taken for. */
export function Words(props: {
  readonly questions: readonly Question[];
  readonly reading: Reading;
  readonly onReading: (reading: Reading) => void;
}) {
  const { questions, reading } = props;
  if (questions.length === 0) return null;
  return (
    <table className="import-words">
      <caption>Words that are none of the plan’s own</caption>
      <thead>
        <tr>
          <th scope="col">Word</th>
          <th scope="col">Stands for</th>
        </tr>
      </thead>
      <tbody>
        {questions.map(({ key, column, word, cells, choices, guess }) => {
          const answer = reading.answers.get(key);
          const value = choices.some((one) => one.value === answer) ? answer : guess;
          const name = word === "" ? "a blank cell" : `“${word}”`;
          return (
            <tr key={key}>
              <th scope="row">
                {name}{" "}
                <span className="note">
                  {column}, {counted(cells, "cell")}
                </span>
              </th>
              <td>
                <select
                  aria-label={`${column} ${name} stands for`}
                  className={value === null ? "import-untaken" : undefined}
                  value={value ?? ""}
                  onChange={(event) =>
                    props.onReading({
                      ...reading,
                      answers: new Map([...reading.answers, [key, event.currentTarget.value]]),
                    })
                  }
                >
                  {value === null && <option value="">choose…</option>}
                  {choices.map((choice) => (
                    <option key={choice.value} value={choice.value}>
                      {choice.words}
                    </option>
                  ))}
                </select>
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
