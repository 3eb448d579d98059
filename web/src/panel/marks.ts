// What is laid over the picture of a panel: figures, the two probes, rings.
import type { Moved, State, WhatIf } from "../core/api.ts";
import { say } from "../words.ts";

export interface Marks {
  /** By point: what a meter to earth shows, as short as it can be said. */
  volts: ReadonlyMap<string, string>;
  /** By point: was and now, where a what-if moves it. */
  moved: ReadonlyMap<string, Moved>;
  /** Points and places of suspects. */
  rings: ReadonlySet<string>;
  /** Blocks whose blown-link indicator is lit, with the words for it. */
  lit: ReadonlyMap<string, string>;
  red: string;
  black: string;
  /** Where a wire begins that is being drawn. */
  from?: string;
}

export const noMarks: Marks = {
  volts: new Map(),
  moved: new Map(),
  rings: new Set(),
  lit: new Map(),
  red: "",
  black: "",
};

/** A solved state: the figures, and the indicators that are lit. */
export function marksOf(state: State): Marks {
  const lit = state.lights.filter(({ grade }) => grade !== "off").map(({ ref, text }) => [ref, text] as const);
  return { ...noMarks, volts: voltsOf(state), lit: new Map(lit) };
}

export function voltsOf(state: State): ReadonlyMap<string, string> {
  return new Map(
    state.points.map(({ point, vdc, vac, floating }) => [
      point,
      floating ? say("page.floating") : Math.abs(vac) > Math.abs(vdc) ? `~${figure(vac)}` : figure(vdc),
    ]),
  );
}

/** Three digits are what fits between two wires, and what a glance takes in. */
function figure(volts: number): string {
  const rounded = volts.toFixed(Math.abs(volts) < 99.95 ? 1 : 0);
  return /^-0(\.0)?$/.test(rounded) ? rounded.slice(1) : rounded.replace("-", "−");
}

export function movedOf(whatif: WhatIf): ReadonlyMap<string, Moved> {
  return new Map(whatif.points.map((moved) => [moved.point, moved]));
}
