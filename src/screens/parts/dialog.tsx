import { type ComponentProps, type RefObject, useEffect, useRef } from "react";

/**
 * A box over everything else, open as long as it is drawn. Escape, `close` on the element and a button with `closeAround` end it with
 * `onClose`. `box` is for who closes it himself.
 */
export function Dialog({
  box,
  ...props
}: Omit<ComponentProps<"dialog">, "open" | "ref"> & {
  readonly box?: RefObject<HTMLDialogElement | null>;
  readonly onClose: NonNullable<ComponentProps<"dialog">["onClose"]>;
}) {
  const own = useRef<HTMLDialogElement>(null);
  const ref = box ?? own;
  useEffect(() => {
    ref.current?.showModal();
  }, [ref]);
  return <dialog {...props} ref={ref} />;
}

/** Closes the dialog that `event` came from. */
export function closeAround(event: { readonly currentTarget: Element }): void {
  event.currentTarget.closest("dialog")?.close();
}
