/** First index of each list when all are laid end to end; one more entry than lists. */
export function firstsOf(lists: readonly (readonly unknown[])[]): Int32Array {
  const firsts = new Int32Array(lists.length + 1);
  lists.forEach((list, i) => {
    firsts[i + 1] = firsts[i]! + list.length;
  });
  return firsts;
}
