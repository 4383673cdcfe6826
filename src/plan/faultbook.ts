import type { Fault } from "./fault.ts";

/** Faults of a document as they are found, and the questions that every part of it is asked. */
export interface FaultBook {
  readonly faults: Fault[];
  /** The ids of a list, each of which stands there once. */
  readonly known: (list: readonly { readonly id: string }[], path: string) => ReadonlySet<string>;
  /** An id, where there is one, names something. */
  readonly refer: (
    ids: ReadonlySet<string>,
    what: string,
    path: string,
    id: string | null | undefined,
  ) => void;
  /** An end is after its start. */
  readonly ordered: (path: string, span: { readonly startS: number; readonly endS: number }) => void;
  /** Nothing is named twice. */
  readonly once: (path: string, ids: readonly string[]) => void;
}

export function faultBook(): FaultBook {
  const faults: Fault[] = [];
  const known = (list: readonly { readonly id: string }[], path: string): ReadonlySet<string> => {
    const ids = new Set<string>();
    list.forEach((item, index) => {
      if (ids.has(item.id))
        faults.push({ path: `${path}.${index}.id`, message: `"${item.id}" is used twice` });
      ids.add(item.id);
    });
    return ids;
  };
  const refer = (
    ids: ReadonlySet<string>,
    what: string,
    path: string,
    id: string | null | undefined,
  ): void => {
    if (id !== null && id !== undefined && !ids.has(id))
      faults.push({ path, message: `there is no ${what} "${id}"` });
  };
  const ordered = (path: string, span: { readonly startS: number; readonly endS: number }): void => {
    if (span.endS <= span.startS)
      faults.push({ path, message: `the end (${span.endS} s) must be after the start (${span.startS} s)` });
  };
  const once = (path: string, ids: readonly string[]): void => {
    if (new Set(ids).size !== ids.length) faults.push({ path, message: "names the same one twice" });
  };
  return { faults, known, refer, ordered, once };
}
