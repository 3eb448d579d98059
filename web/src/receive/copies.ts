// Which panel of this phone is what came in a copy of, and from which state did
// both go on. Names are of no use for that, since a copy may have been renamed:
// what counts are the states each knows it came from.
import { unpack } from "../core/share.ts";
import { addedPanels, getPanel, versionsOf } from "../store/panels.ts";
import type { SavedPanel } from "../store/schema.ts";
import type { Unpacked } from "../core/api.ts";

/** What came in, against one panel of this phone. */
export interface Copied {
  panel: SavedPanel;
  /**
   * same: the two say the same. older: this phone has had this state and went
   * on. newer: it goes on from what is here. parted: both went on. unknown: no
   * state is known that both came from.
   */
  how: "same" | "older" | "newer" | "parted" | "unknown";
  /** The newest state that both came from; "" where its text is not known here. */
  base: string;
}

/** The panels of this phone that it is a copy of, by their states; else by their name. */
export async function copiesOf(came: Unpacked): Promise<Copied[]> {
  const panels = await addedPanels();
  const from = new Set([...came.editions, came.edition]);
  const related = panels.filter(({ editions = [] }) => editions.some((edition) => from.has(edition)));
  // One that was never handed over or received is known only by what it is now.
  const near = related.length > 0 ? related : panels.filter(({ title, editions }) => title === came.name || !editions);
  const found = await Promise.all(near.map((panel) => against(came, panel)));
  return found.filter(({ how, panel }) => how !== "unknown" || panel.title === came.name || related.includes(panel));
}

/** As asked for: a person says which panel it is a copy of. */
export async function copyOf(came: Unpacked, id: string): Promise<Copied | null> {
  const panel = await getPanel(id);
  return panel ? against(came, panel) : null;
}

async function against(came: Unpacked, panel: SavedPanel): Promise<Copied> {
  const now = await unpack(panel.text);
  if (now.digest === came.digest) return { panel, how: "same", base: panel.text };
  const texts = new Map((await versionsOf(panel.id)).map(({ edition = "", text }) => [edition, text]));
  texts.set(now.edition, panel.text);
  const known = texts.get(came.edition);
  if (known !== undefined) return { panel, how: "older", base: known };
  const shared = [...came.editions].reverse().find((edition) => edition !== "" && texts.has(edition));
  const base = shared === undefined ? "" : (texts.get(shared) ?? "");
  if (base === "") return { panel, how: "unknown", base };
  return { panel, how: shared === now.edition ? "newer" : "parted", base };
}
