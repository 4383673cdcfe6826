import type { ReactNode } from "react";
import { closeAround } from "./dialog.tsx";

/** The head of a dialog: its title, by whose id the dialog is named, what can be done beside it, and the way out. */
export function DialogHead(props: {
  readonly id: string;
  readonly title: string;
  readonly children?: ReactNode;
}) {
  return (
    <header className="part-head">
      <h2 id={props.id}>{props.title}</h2>
      {props.children}
      <button type="button" className="quiet" onClick={closeAround}>
        Close
      </button>
    </header>
  );
}
