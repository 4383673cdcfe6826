import { useEffect, useRef } from "react";
import { useApp } from "../context.ts";
import { nameOf } from "../../session/index.ts";
import { STEERING } from "./keywords.ts";
import { Legend } from "./legend.tsx";
import "./keys.css";
import "./legend.css";

/** All keys, and what the signs of the day line mean. */
export function Keys() {
  const { session, view } = useApp();
  const ref = useRef<HTMLDialogElement>(null);
  useEffect(() => ref.current?.showModal(), []);
  /** Commands that have keys, by their groups, in the order of the list. */
  const commandKeys = (): typeof STEERING => {
    const keyed = session.commands.list().filter((command) => command.keys.length > 0);
    const groups = [...new Set(keyed.map((command) => command.group))];
    return groups.map((title) => ({
      title,
      keys: keyed
        .filter((command) => command.group === title)
        .map((command) => ({ keys: command.keys.join(", "), does: nameOf(command) })),
    }));
  };
  return (
    <dialog
      ref={ref}
      className="shell-keys"
      aria-labelledby="keys-title"
      onClose={() => view.setState({ keysShown: false })}
    >
      <header className="part-head">
        <h2 id="keys-title">Keys and legend</h2>
        <button type="button" className="quiet" onClick={() => ref.current?.close()}>
          Close
        </button>
      </header>
      <div className="keys-columns">
        {[...commandKeys(), ...STEERING].map((part) => (
          <section key={part.title}>
            <h3>{part.title}</h3>
            <dl>
              {part.keys.map(({ keys, does }) => (
                <div key={keys}>
                  <dt>{keys}</dt>
                  <dd>{does}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
        <section>
          <h3>How to read the line</h3>
          <p>
            The ribbon of each crew member stands as high as the walk home is long. The hatched ceiling above
            it is the longest walk home that the suit still carries: it comes down as stocks run out. Work
            that would touch it is too far.
          </p>
          <Legend />
        </section>
      </div>
    </dialog>
  );
}
