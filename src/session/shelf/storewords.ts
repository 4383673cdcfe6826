import { wordsOf } from "../files.ts";

/** What is wrong with the browser's store, in words that say what to do. */
export function storeTrouble(error: unknown): string {
  const name = error instanceof Error || error instanceof DOMException ? error.name : "";
  switch (name) {
    case "QuotaExceededError":
      return "there is no room left in this browser's store: delete plans in the bin, or free room on the disk";
    case "VersionError":
      return "a newer version of this program has used this browser's store: load the page anew";
    case "SecurityError":
    case "InvalidStateError":
      return "the browser keeps nothing for this page: a private window, or storage is switched off";
    case "UnknownError":
      return "the browser cannot open it: another process holds it, or the disk fails; load the page anew";
    case "ReferenceError":
      return "this browser has no store, or it is switched off";
    default:
      return wordsOf(error);
  }
}
