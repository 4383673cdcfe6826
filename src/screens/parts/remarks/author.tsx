import { useState } from "react";
import { useApp, useSession } from "../../context.ts";

/** Under which name this browser comments, signs and keeps. */
export function AuthorField({ label = "Your name" }: { readonly label?: string }) {
  const { session } = useApp();
  const author = useSession((state) => state.author);
  // A blank at the end is on its way to the next word.
  const [typed, type] = useState(author);
  return (
    <label
      className="remarks-author"
      title="As you type it. It goes with what you say into the plan's file, and proves nothing."
    >
      {label}
      <input
        value={typed.trim() === author ? typed : author}
        maxLength={60}
        autoComplete="name"
        onChange={(event) => {
          type(event.target.value);
          session.setAuthor(event.target.value);
        }}
      />
    </label>
  );
}
