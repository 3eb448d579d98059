// A reading as it stood on the display.
import type { Reading } from "../core/api.ts";

const units: Record<string, string> = { vdc: "V", vac: "V", lowz: "V", tester: "V", diode: "V", ma: "mA", clamp: "A", ohms: "Ω", beep: "Ω" };

/** "24.1 V", "OL"; without what the person saw, the figure that was understood. */
export const figureOf = ({ mode, value, shown }: Reading): string => shown || `${value} ${units[mode] ?? ""}`.trim();
