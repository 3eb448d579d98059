// Notes: plain text, kept with a panel, a job or one thing on a panel.
import { database } from "./db.ts";
import type { Owner, SavedNote } from "./schema.ts";
import { awayOf } from "./trash.ts";
import { write } from "./write.ts";

export async function addNote({ panel, job, thing }: Owner, text: string): Promise<void> {
  const note: SavedNote = { id: crypto.randomUUID(), panel, job, thing, text, when: new Date().toISOString() };
  await write(["notes"], { kind: "note", id: note.id }, (tx) => tx.objectStore("notes").add(note));
}

/** Notes of a panel, its jobs and things, the newest first. */
export async function notesOf(panel: string): Promise<SavedNote[]> {
  const away = await awayOf("note");
  const notes = await (await database()).getAllFromIndex("notes", "panel", panel);
  return notes.filter(({ id }) => !away.has(id)).sort((a, b) => (a.when < b.when ? 1 : -1));
}
