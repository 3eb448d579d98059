// What is typed and not yet entered: half a reading outlives a call, a reload
// and a tab that the phone threw away. It belongs to one prompt of one job.

export interface Typed {
  text: string;
  unit: string;
}

const KEY = "halfsplit-typed";

/** What was typed for a prompt, or null. */
export function typedFor(prompt: string): Typed | null {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? "null") as Partial<Typed & { prompt: string }> | null;
    if (kept?.prompt !== prompt || typeof kept.text !== "string" || typeof kept.unit !== "string") return null;
    return { text: kept.text, unit: kept.unit };
  } catch {
    return null;
  }
}

export function keepTyped(prompt: string, typed: Typed): void {
  localStorage.setItem(KEY, JSON.stringify({ prompt, ...typed }));
}

export function forgetTyped(): void {
  localStorage.removeItem(KEY);
}
