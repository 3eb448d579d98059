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

/** Null where it is no figure. */
export function read(text: string): number | null {
  const found = /^([+-]?\d+(?:[.,]\d+)?)\s*([Mkmµu]?)$/.exec(text.trim());
  if (!found) return null;
  const sign = found[2] === "u" ? "µ" : (found[2] ?? "");
  const size = prefixes.find(([name]) => name === sign)?.[1] ?? 1;
  return Number((Number((found[1] ?? "").replace(",", ".")) * size).toPrecision(12));
}
