// Figures as people write them on a data sheet: "10 M", "3 k", "1.5", "0,1".
const prefixes: readonly (readonly [string, number])[] = [
  ["M", 1e6],
  ["k", 1e3],
  ["", 1],
  ["m", 1e-3],
  ["µ", 1e-6],
];

/** With the prefix that leaves the fewest digits before the point. */
export function write(value: number): string {
  const [sign, size] = prefixes.find(([, factor]) => Math.abs(value) >= factor) ?? ["", 1];
  return `${Number((value / size).toPrecision(6))} ${sign}`;
}

/** Digits in groups of three, which may be thousands; with a prefix they are not. */
const grouped = /^[+-]?[1-9]\d{0,2}([.,' \u2009\u202f]\d{3})+([.,]\d+)?$/;

/**
 * Comma or point is the decimal one. "thousands" where it may be a separator of
 * thousands: "10,000" is ten or ten thousand, and nobody guesses.
 */
export function read(text: string): number | "thousands" | "no-figure" {
  const bare = text.trim();
  if (grouped.test(bare)) return "thousands";
  const found = /^([+-]?\d+(?:[.,]\d+)?)\s*([Mkmµu]?)$/.exec(bare);
  if (!found) return "no-figure";
  const sign = found[2] === "u" ? "µ" : (found[2] ?? "");
  const size = prefixes.find(([name]) => name === sign)?.[1] ?? 1;
  return Number((Number((found[1] ?? "").replace(",", ".")) * size).toPrecision(12));
}
