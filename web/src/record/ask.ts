// Questions about records; the workshop answers them.
import type { Job, Record as Answer } from "../core/api.ts";
import { ask } from "../core/ask.ts";
import { workshop } from "../core/core.ts";

export type Form = "text" | "csv" | "html";
export type Paper = "A4" | "letter";

export const recordOf = (job: Job, form: Form, paper: Paper, signal?: AbortSignal): Promise<Answer> =>
  ask(workshop, { op: "record", job, as: form, paper }, "record", signal);
