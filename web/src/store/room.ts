// How safe the phone's memory is: whether the browser may clear it, and how
// much of it is left.

/** "kept": only the person can clear it. "may-clear": the browser may, when the phone runs short. */
export type Keeping = "kept" | "may-clear" | "unknown";

export async function keeping(): Promise<Keeping> {
  try {
    return (await navigator.storage.persisted()) ? "kept" : "may-clear";
  } catch {
    return "unknown";
  }
}

/** Asks the browser to keep it for good. Some ask the person in turn. */
export async function askToKeep(): Promise<Keeping> {
  try {
    return (await navigator.storage.persist()) ? "kept" : "may-clear";
  } catch {
    return "unknown";
  }
}

export interface Room {
  used: number;
  all: number;
}

/** From this part on a person is warned: photos of one more job may not fit. */
const NEARLY = 0.8;

export const nearlyFull = ({ used, all }: Room): boolean => used >= NEARLY * all;

/** How much is used and allowed, in bytes, as the browser says; null if it does not. */
export async function room(): Promise<Room | null> {
  try {
    const { usage, quota } = await navigator.storage.estimate();
    return usage !== undefined && quota ? { used: usage, all: quota } : null;
  } catch {
    return null;
  }
}
