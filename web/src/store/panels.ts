// Panels and their drawings. Whoever saves says which version he started from,
// so that two tabs, or a tab that slept in a pocket, never undo each other.
import { database } from "./db.ts";
import { allOf, EDITIONS_KEPT, type Drawn, type SavedPanel, type SavedVersion, type Writing } from "./schema.ts";
import { awayOf, isAway } from "./trash.ts";
import { write } from "./write.ts";

/** Beside the first one, how many earlier drawings of a panel are kept. */
const VERSIONS_KEPT = 30;

interface Drawing {
  title: string;
  text: string;
  drawn?: Drawn;
}

/** A copy that came from elsewhere: what it is now, and the states it says it came from. */
export interface Copy {
  title: string;
  text: string;
  edition: string;
  editions: readonly string[];
}

export async function addPanel(drawing: Drawing): Promise<SavedPanel> {
  const panel = fresh(drawing);
  await write(["panels"], { kind: "panel", id: panel.id }, (tx) => tx.objectStore("panels").add(panel));
  return panel;
}

/** A copy becomes a panel of its own; beside says which one it was kept beside. */
export async function addCopy({ title, text, edition, editions }: Copy, beside = ""): Promise<SavedPanel> {
  const split = beside && ({ split: { of: beside, why: "received" } } as const);
  const panel: SavedPanel = { ...fresh({ title, text }), editions: joined(editions, [edition]), ...split };
  await write(["panels", "versions"], { kind: "panel", id: panel.id }, async (tx) => {
    await tx.objectStore("panels").add(panel);
    await tx.objectStore("versions").put({ ...versionOf(panel), edition });
  });
  return panel;
}

function fresh(drawing: Drawing): SavedPanel {
  const now = new Date().toISOString();
  return { id: `file:${crypto.randomUUID()}`, ...drawing, added: now, version: 1, changed: now };
}

/**
 * Saves a drawing that was made from version `from` of a panel. The one before
 * stays among its versions. If the panel has been saved since by somebody else,
 * both are kept: the answer is then a panel of its own, with split set.
 *
 * A drawing that goes on from the one before by another step needs no version:
 * its steps lead back to all of them, and a hundred taps would push the drawings
 * worth keeping out of the list.
 *
 * received is the copy that the drawing is, or was merged with: it becomes an
 * edition, the one a later copy from there is merged from.
 */
export async function savePanel(id: string, from: number, drawing: Drawing, received?: Copy): Promise<SavedPanel> {
  return write(["panels", "versions"], { kind: "panel", id }, async (tx) => {
    const { title, text, drawn } = drawing;
    const panels = tx.objectStore("panels");
    const now = await panels.get(id);
    if (now && !received && now.title === title && now.text === text) return now;
    if (!now || now.version !== from) {
      const editions = received && { editions: joined(received.editions, [received.edition]) };
      const beside: SavedPanel = { ...fresh(drawing), ...editions, split: { of: id, why: "tab" } };
      await panels.add(beside);
      return beside;
    }
    if (!drawn || drawn.base !== now.drawn?.base) await keepVersion(tx, now);
    const next: SavedPanel = { ...now, title, text, version: from + 1, changed: new Date().toISOString() };
    if (received) {
      const theirs = { ...versionOf(next), title: received.title, text: received.text, edition: received.edition };
      await tx.objectStore("versions").put(theirs);
      if (received.text !== text) next.version++;
      next.editions = joined(joined(now.editions, received.editions), [received.edition]);
    }
    if (drawn) next.drawn = drawn;
    else delete next.drawn;
    await panels.put(next);
    await thinOut(tx, id);
    return next;
  });
}

/** What is noted of this version already stays: it may be an edition. */
async function keepVersion(tx: Writing, now: SavedPanel): Promise<void> {
  const versions = tx.objectStore("versions");
  await versions.put({ ...(await versions.get([now.id, now.version])), ...versionOf(now) });
}

function versionOf({ id, version, title, text, changed }: SavedPanel): SavedVersion {
  return { panel: id, version, title, text, saved: changed };
}

/**
 * Notes that the drawing as it stands in text was handed over: an edition, by
 * which a copy of this panel is known again and may be merged with it.
 */
export async function handedOver(id: string, text: string, edition: string): Promise<void> {
  await write(["panels", "versions"], { kind: "panel", id }, async (tx) => {
    const now = await tx.objectStore("panels").get(id);
    if (!now) return;
    // Drawn on meanwhile, it is known again and is nobody's base.
    if (now.text === text) await tx.objectStore("versions").put({ ...versionOf(now), edition });
    await tx.objectStore("panels").put({ ...now, editions: joined(now.editions, [edition]) });
  });
}

/** Editions of two lists, each once, the newest last. */
function joined(ours: readonly string[] = [], theirs: readonly string[] = []): string[] {
  const older = ours.filter((edition) => !theirs.includes(edition));
  return [...older, ...theirs].slice(-EDITIONS_KEPT);
}

/** The first drawing says how the panel was built; of the others the oldest go. */
async function thinOut(tx: Writing, panel: string): Promise<void> {
  const versions = tx.objectStore("versions");
  const [, ...later] = await versions.getAllKeys(allOf(panel));
  for (const key of later.slice(0, Math.max(0, later.length - VERSIONS_KEPT))) await versions.delete(key);
}

/** Earlier drawings of a panel, the latest first. */
export async function versionsOf(panel: string): Promise<SavedVersion[]> {
  const [now, versions] = await Promise.all([getPanel(panel), (await database()).getAll("versions", allOf(panel))]);
  return versions.filter(({ version }) => version !== now?.version).reverse();
}

export async function addedPanels(): Promise<SavedPanel[]> {
  const away = await awayOf("panel");
  return (await (await database()).getAll("panels")).filter(({ id }) => !away.has(id));
}

/** A panel of this phone, unless it is unknown or was put away. */
export async function getPanel(id: string): Promise<SavedPanel | undefined> {
  return (await isAway("panel", id)) ? undefined : (await database()).get("panels", id);
}
