// A pulse in the hand where eyes and ears are busy: one short for what is
// written down, two for what wants to be looked at.
import { choice } from "./choice.ts";

export const pulses = choice("pulses");

export const canPulse = (): boolean => typeof navigator.vibrate === "function";

/** Milliseconds on, off, on: short enough not to be taken for a call (choice). */
const patterns = { stored: [30], look: [60, 90, 160] };

/** Silent where it is switched off, absent, or nobody has touched the page yet. */
export function pulse(what: keyof typeof patterns): void {
  if (!canPulse() || !pulses.get()) return;
  if (!navigator.userActivation.hasBeenActive) return;
  navigator.vibrate(patterns[what]);
}
