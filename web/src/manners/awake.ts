// The screen stays on while somebody holds two probes (W3C Screen Wake Lock).
// The browser drops the lock when the page is hidden; it is taken again when
// the page is seen again.
import { useEffect, useState } from "preact/hooks";
import { choice } from "./choice.ts";

export const stayOn = choice("stay-on");

export const canStayOn = (): boolean => "wakeLock" in navigator;

/** How many screens want it. */
let wanting = 0;
let lock: WakeLockSentinel | null = null;
let busy = false;
let refused = false;
const watchers = new Set<() => void>();

const wanted = (): boolean => wanting > 0 && document.visibilityState === "visible";
const held = (): boolean => lock !== null && !lock.released;

/** Takes or gives back until what is held is what is wanted; a refusal is final until the next screen. */
async function settle(): Promise<void> {
  if (busy || !canStayOn()) return;
  busy = true;
  try {
    while (wanted() !== held()) {
      if (held()) await lock?.release();
      else lock = await navigator.wakeLock.request("screen");
      refused = false;
    }
  } catch {
    refused = true; // a low battery is a reason to refuse
  } finally {
    busy = false;
    for (const watcher of watchers) watcher();
  }
}

/** Keeps the screen on for as long as the component is shown and on is true. */
export function useAwake(on: boolean): void {
  const chosen = stayOn.use();
  const want = on && chosen;
  useEffect(() => {
    if (!want) return;
    wanting++;
    const seen = (): void => void settle();
    document.addEventListener("visibilitychange", seen);
    seen();
    return () => {
      document.removeEventListener("visibilitychange", seen);
      wanting--;
      // The next screen may want it too: it says so within the same turn.
      queueMicrotask(seen);
    };
  }, [want]);
}

/** Whether the phone last refused to stay on. */
export function useRefused(): boolean {
  const [state, setState] = useState(refused);
  useEffect(() => {
    const look = (): void => setState(refused);
    watchers.add(look);
    look();
    return () => void watchers.delete(look);
  }, []);
  return state;
}
