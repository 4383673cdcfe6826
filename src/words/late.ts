/** Beside a late table that was found and played, but not tested as the crew's papers are obeyed. */
export const PAPER_HAS_WHAT_WAS_TESTED =
  "Paper has an answer only where the judge passes it as it is obeyed to the letter; where none does it says to call.";

/**
 * What was not tried for a lateness that no order holds for, after a semicolon; empty where nothing is known of. `breaks`: the rules that are broken even
 * when everybody goes home. In every schedule who is done leaves for the next thing at once, so a partner cannot hold where they are: of crew
 * separation that may be all it takes, and whoever reads the table must not take ending the EVA for the only way.
 */
export function untriedWords(breaks: readonly string[]): string {
  return breaks.includes("crew-separation") ? "; not tried: the others hold where they are" : "";
}
