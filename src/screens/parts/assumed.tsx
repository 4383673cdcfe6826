import { ASSUMED } from "../words.ts";

/** Beside a figure that rests on what nobody has given. */
export function Assumed({ when }: { readonly when: boolean }) {
  return (
    when && (
      <small className="assumed" title="Rests on values that nobody has given">
        {" "}
        {ASSUMED}
      </small>
    )
  );
}
