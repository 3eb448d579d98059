// The black and white squares of a QR code (ISO/IEC 18004).
import { encodeQR } from "qr";

/** White around a code, in modules. Source: ISO/IEC 18004. */
const QUIET = 4;

/** Modules along one side of version 1, and how many each version adds. Source: ISO/IEC 18004. */
const [FIRST, EACH] = [17, 4];

/** The smallest version that takes the longest of the texts, so that all codes look alike. */
export function versionFor(texts: readonly string[]): number {
  const longest = texts.reduce((long, text) => (text.length > long.length ? text : long), "");
  return (modulesOf(longest).length - 2 * QUIET - FIRST) / EACH;
}

/** True is black. Of no version, the smallest one that takes the text. */
export function modulesOf(text: string, version?: number): boolean[][] {
  return encodeQR(text, "raw", { ecc: "medium", encoding: "alphanumeric", version, border: QUIET });
}
