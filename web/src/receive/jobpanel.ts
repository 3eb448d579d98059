// The panel a received job was done at, and whether the job was done with this
// very phone.
import type { Unpacked } from "../core/api.ts";
import { hello } from "../core/ask.ts";
import { pack, unpack } from "../core/share.ts";
import { addedPanels } from "../store/panels.ts";
import { jobsOf } from "../store/jobs.ts";
import { toldBy } from "../record/elsewhere.ts";
import { papersOf } from "../store/papers.ts";
import type { SavedPaper } from "../store/schema.ts";

export interface At {
  /** What came of its panel; null where the job has none. */
  came: Unpacked | null;
  /** Panels of this phone that it may have been, the likeliest first. */
  panels: readonly { id: string; title: string }[];
  /** It is one of the jobs of this phone, or a record that was kept before. */
  here: "" | "job" | "paper";
  /** An earlier record of the same job that is kept here; this one takes its place. */
  before: SavedPaper | null;
}

export async function panelOfJob(job: Unpacked): Promise<At> {
  const came = job.panel ? await unpack(job.panel) : null;
  const panels = came ? await panelsOf(came) : [];
  const start = begun(job.document);
  let before: SavedPaper | null = null;
  for (const { id } of panels) {
    const papers = await papersOf(id);
    if (papers.some(({ document }) => document === job.document)) return { came, panels, here: "paper", before: null };
    if ((await jobsOf(id)).some(({ started }) => second(started) === start)) return { came, panels, here: "job", before: null };
    before ??= papers.find(({ document }) => begun(document) === start) ?? null;
  }
  return { came, panels, here: "", before };
}

async function panelsOf(came: Unpacked): Promise<{ id: string; title: string }[]> {
  const from = new Set([...came.editions, came.edition]);
  const sure: { id: string; title: string }[] = [];
  const maybe: { id: string; title: string }[] = [];
  for (const { id, title, text, editions = [] } of await addedPanels()) {
    const known = editions.some((edition) => from.has(edition)) || from.has((await unpack(text)).edition);
    if (known) sure.push({ id, title });
    else if (title === came.name) maybe.push({ id, title });
  }
  for (const demo of (await hello()).demos) {
    const { edition, document } = await pack({ demo }, 0);
    if (from.has(edition)) sure.push({ id: `demo:${demo}`, title: (await unpack(document)).name });
  }
  return sure.length > 0 ? sure : maybe;
}

/** Records have whole seconds. */
const second = (when: string): number => Math.floor(Date.parse(when) / 1000);

/** When the job of a document began; NaN, which is like no other, where it does not say. */
const begun = (document: string): number => second(toldBy({ document, title: "" }).started);
