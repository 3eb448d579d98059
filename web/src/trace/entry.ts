// What a person keys in from a meter's display, one key at a time.

export type Key = "0" | "1" | "2" | "3" | "4" | "5" | "6" | "7" | "8" | "9" | "point" | "sign" | "back" | "OL";

/** Digits a handheld meter can show, and then some. */
const MAX_DIGITS = 7;

/**
 * The text after one more key. Comma and point are one key, kept as a point. A
 * second one would make thousands of the first: it stays, so that it can be
 * refused, unless it only bounced.
 */
export function press(text: string, key: Key): string {
  const bare = text === "OL" ? "" : text;
  switch (key) {
    case "OL":
      return "OL";
    case "back":
      return bare.slice(0, -1);
    case "sign":
      return bare.startsWith("-") ? bare.slice(1) : `-${bare}`;
    case "point":
      if (twoPoints(bare)) return bare;
      return bare.endsWith(".") || /\d$/.test(bare) ? `${bare.replace(/\.$/, "")}.` : `${bare}0.`;
    default: {
      if (bare.replace(/\D/g, "").length >= MAX_DIGITS) return bare;
      return /^-?0$/.test(bare) ? `${bare.slice(0, -1)}${key}` : `${bare}${key}`;
    }
  }
}

/** Two points are no figure: a separator of thousands is refused, not guessed at. */
export const twoPoints = (text: string): boolean => text.split(".").length > 2;

/** The key a real keyboard means; null for all others. */
export function keyOf(typed: string): Key | null {
  if (/^\d$/.test(typed)) return typed as Key;
  if (typed === "." || typed === ",") return "point";
  if (typed === "-" || typed === "+") return "sign";
  if (typed === "Backspace") return "back";
  if (typed === "o" || typed === "O") return "OL";
  return null;
}

/** Units as a display shows them, in volts and in ohms. */
const units = {
  // Divided, since 350 · 0.001 is not 0.35 in binary.
  mV: (figure: number) => figure / 1e3,
  V: (figure: number) => figure,
  Ω: (figure: number) => figure,
  kΩ: (figure: number) => figure * 1e3,
  MΩ: (figure: number) => figure * 1e6,
};
export type Unit = keyof typeof units;

/** The units of a mode, the usual one first. */
export function unitsOf(mode: string): readonly [Unit, ...Unit[]] {
  return mode === "ohms" ? ["Ω", "kΩ", "MΩ"] : ["V", "mV"];
}

/** The figure in volts or ohms, "OL", or null while it is not yet a figure. */
export function figureOf(text: string, unit: Unit): number | "OL" | null {
  if (text === "OL") return "OL";
  if (!/^-?\d+(\.\d*)?$/.test(text)) return null;
  const figure = units[unit](Number(text));
  return figure === 0 ? 0 : figure;
}
