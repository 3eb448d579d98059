// Takes back the last step. The step stays in the job's record.
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import type { Job } from "./job.tsx";

export function Undo({ job: { undo } }: { job: Job }) {
  return (
    <button type="button" class="second" disabled={undo === null} onClick={() => undo?.()}>
      <Icon name="undo" /> {say("page.undo")}
    </button>
  );
}
