// What is on the same fuse: found by letting fuses blow in the model, one at a
// time, and seeing who goes down with what was dead.
import type { Affected } from "../core/api.ts";
import type { PanelSession } from "../core/ask.ts";

/** Faults by which an overcurrent device opens. */
const OPENED = /=(fuse-blown|blown|tripped)$/;

export const isFuse = (fault: string): boolean => OPENED.test(fault);
const thingOf = (fault: string): string => fault.slice(0, fault.indexOf("="));

export interface Fed {
  /** The fuse or breaker. */
  fuse: string;
  /** Whoever is down while it is open, the dead ones included. */
  things: Affected[];
}

/** The fuse nearest to what was dead: fewest go down with it. Null where no single one feeds all of it. */
export async function sameFuse(
  session: PanelSession,
  at: string,
  dead: readonly string[],
  cause: readonly string[],
  signal: AbortSignal,
): Promise<Fed | null> {
  const whoGoes = async (fault: string): Promise<Fed> => {
    const { affected } = await session.whatif(at, [fault], signal);
    return { fuse: thingOf(fault), things: affected };
  };
  const opened = cause.find(isFuse);
  if (opened) return whoGoes(opened);
  if (dead.length === 0) return null;
  let nearest: Fed | null = null;
  for (const { fault } of (await session.faults()).faults) {
    if (!isFuse(fault)) continue;
    const fed = await whoGoes(fault);
    const all = dead.every((ref) => fed.things.some((thing) => thing.ref === ref));
    if (all && (!nearest || fed.things.length < nearest.things.length)) nearest = fed;
  }
  return nearest;
}
