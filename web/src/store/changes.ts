// Who must read again: every write tells the screens of this tab and of all
// others what it was about.
import type { Kind } from "./schema.ts";

/** What was written: one thing, or so much that everything is to be read again. */
export type Change = { kind: Kind; id: string } | { kind: "all" };

type Listener = (change: Change, elsewhere: boolean) => void;

const listeners = new Set<Listener>();
const channel = new BroadcastChannel("halfsplit-kept");
channel.onmessage = ({ data }: MessageEvent<Change>) => {
  for (const listener of [...listeners]) listener(data, true);
};

export function tell(change: Change): void {
  channel.postMessage(change);
  for (const listener of [...listeners]) listener(change, false);
}

/** Hears of writes of this tab and of others. Returns how to stop. */
export function onChange(listener: Listener): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
