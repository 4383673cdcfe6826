import { useApp, useSession } from "../context.ts";

/** Says that another window writes the open plan, and offers the ways out. */
export function Following() {
  const { session } = useApp();
  const elsewhere = useSession((state) => state.writing === "elsewhere");
  const slot = useSession((state) => state.slot);
  if (!elsewhere) return null;
  return (
    <section className="first-steps following" aria-label="Written in another window">
      <p>
        <b>Another window writes this plan.</b> This one shows what is saved there, and changes nothing.
      </p>
      <button type="button" className="primary" onClick={() => session.takeOver()}>
        Take it over here
      </button>
      <button type="button" onClick={() => void session.openCopy({ slot })}>
        Open a copy
      </button>
    </section>
  );
}
