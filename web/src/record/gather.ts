// Gathers what the phone keeps of a job, to make its document.
import type { Job, Panel } from "../core/api.ts";
import { sessionOf, sourceOf } from "../panel/sessions.ts";
import { entriesOf, getJob } from "../store/jobs.ts";
import { notesOf } from "../store/notes.ts";
import { versionsOf } from "../store/panels.ts";
import { photosOf } from "../store/photos.ts";
import { account } from "../store/step.ts";
import { say } from "../words.ts";
import { documentOf } from "./document.ts";

/** Errors: a job that is not on this phone. */
export async function jobDocument(id: string): Promise<Job> {
  const saved = await getJob(id);
  if (!saved) throw new Error(say("page.no-such-job"));
  const entries = await entriesOf(id);
  const { settled } = account(entries.map(({ step }) => step));
  const ofJob = ({ job }: { job: string }): boolean => job === id;
  return documentOf({
    saved,
    entries,
    panel: await panelOf(saved.panel, settled?.version),
    notes: (await notesOf(saved.panel)).filter(ofJob).reverse(),
    photos: (await photosOf(saved.panel)).filter(ofJob).reverse(),
  });
}

/** The panel as this job found it: before what was found became the drawing. */
export async function panelOf(id: string, version?: number): Promise<Panel | null> {
  try {
    const before = version && (await versionsOf(id)).find((one) => one.version === version);
    if (before) return JSON.parse(before.text) as Panel;
    const source = await sourceOf(id);
    return JSON.parse("text" in source ? source.text : (await (await sessionOf(id)).open()).document) as Panel;
  } catch {
    return null; // it was put away, or cannot be read any more: the job is told without it
  }
}
