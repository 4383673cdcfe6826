/** What people write for units, in the form that this program writes them. */
const UNIT_WORDS: Readonly<Record<string, string>> = {
  mins: "min",
  minute: "min",
  minutes: "min",
  hr: "h",
  hrs: "h",
  hour: "h",
  hours: "h",
  sec: "s",
  secs: "s",
  second: "s",
  seconds: "s",
  metre: "m",
  metres: "m",
  meter: "m",
  meters: "m",
  kilometres: "km",
  kilometers: "km",
  kgs: "kg",
  kilogram: "kg",
  kilograms: "kg",
  gram: "g",
  grams: "g",
  litre: "L",
  litres: "L",
  liter: "L",
  liters: "L",
  millilitres: "ml",
  milliliters: "ml",
  watt: "W",
  watts: "W",
  percent: "%",
  deg: "°",
  degrees: "°",
};

/** The unit that a word stands for: `hours` is `h`; the word itself where it is none that is known. */
export function unitNamed(word: string): string {
  return UNIT_WORDS[word.toLowerCase()] ?? word;
}
