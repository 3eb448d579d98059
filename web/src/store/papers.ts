// Records of jobs that were done elsewhere: each is one document, kept as it came.
import { database } from "./db.ts";
import type { SavedPaper } from "./schema.ts";
import { awayOf, isAway } from "./trash.ts";
import { write } from "./write.ts";

/** before is an earlier record of the same job, whose place it takes: that one is put away. */
export async function addPaper(paper: Omit<SavedPaper, "id" | "received">, before: SavedPaper | null = null): Promise<SavedPaper> {
  const saved: SavedPaper = { id: crypto.randomUUID(), ...paper, received: new Date().toISOString() };
  await write(["papers", "trash"], { kind: "paper", id: saved.id }, async (tx) => {
    await tx.objectStore("papers").add(saved);
    if (before) await tx.objectStore("trash").put({ kind: "paper", id: before.id, title: before.title, when: saved.received });
  });
  return saved;
}

/** A paper of this phone, unless it is unknown or was put away. */
export async function getPaper(id: string): Promise<SavedPaper | undefined> {
  return (await isAway("paper", id)) ? undefined : (await database()).get("papers", id);
}

/** Papers of a panel, the newest first. */
export async function papersOf(panel: string): Promise<SavedPaper[]> {
  const away = await awayOf("paper");
  const papers = await (await database()).getAllFromIndex("papers", "panel", panel);
  return papers.filter(({ id }) => !away.has(id)).sort((a, b) => (a.received < b.received ? 1 : -1));
}

/** What it left in place is back as it was, or after all is not. */
export async function sayBack(id: string, back: boolean): Promise<void> {
  await write(["papers"], { kind: "paper", id }, async (tx) => {
    const paper = await tx.objectStore("papers").get(id);
    if (!paper) return;
    const { back: _, ...rest } = paper;
    await tx.objectStore("papers").put(back ? { ...rest, back: new Date().toISOString() } : rest);
  });
}
