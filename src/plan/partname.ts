/** As long as a name may be. */
const LONGEST_NAME = 120;

const PART = /^(.+), part (\d+(?:\.\d+)*)$/su;

/** What the parts of a task are called: "part 1" and "part 2", of a part 2 "part 2.1" and "part 2.2". A name without room for it is cut. */
export function partNames(name: string): readonly [first: string, second: string] {
  const [, whole = name, number] = PART.exec(name) ?? [];
  const called = (nth: 1 | 2): string => {
    const end = `, part ${number === undefined ? "" : `${number}.`}${nth}`;
    return whole.length + end.length <= LONGEST_NAME
      ? `${whole}${end}`
      : `${whole.slice(0, LONGEST_NAME - end.length - 1).trimEnd()}…${end}`;
  };
  return [called(1), called(2)];
}

/** What parts were called before they were split; else both names, as far as there is room. */
export function wholeName(first: string, second: string): string {
  const [, one = first, numberOne = ""] = PART.exec(first) ?? [];
  const [, other = second, numberTwo = ""] = PART.exec(second) ?? [];
  if (one === other) {
    const above = aboveOf(numberOne);
    return above !== "" && above === aboveOf(numberTwo) ? `${one}, part ${above}` : one;
  }
  const both = `${first} and ${second}`;
  return both.length <= LONGEST_NAME ? both : first;
}

/** The number of the part that a part is of: "2" of "2.1", nothing of "2". */
function aboveOf(number: string): string {
  return number.split(".").slice(0, -1).join(".");
}
