// The record of a job: to read on the phone, to hand over, to print.
import { useEffect, useState } from "preact/hooks";
import { useKept } from "../keep/kept.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { recordOf } from "./ask.ts";
import { ExportSheet, usePaper } from "./export.tsx";
import { jobDocument } from "./gather.ts";
import { RecordSheet } from "./sheet.tsx";
import { Temporaries } from "./temporaries.tsx";
import { useJob, type ClosingJob } from "./usejob.ts";

export function RecordScreen({ job }: { job: string }) {
  const found = useJob(job);
  if (found.value) return <Loaded job={found.value} />;
  return (
    <Screen title={say("page.record")} back={{ at: "panels" }}>
      {found.error !== undefined && <Trouble error={found.error} />}
    </Screen>
  );
}

function Loaded({ job }: { job: ClosingJob }) {
  const { saved, steps } = job;
  useEffect(() => scrollTo(0, 0), []); // what is still in place is on top
  const [exporting, setExporting] = useState(false);
  const [paper, setPaper] = usePaper();
  const record = useKept(async () => {
    const document = await jobDocument(saved.id);
    return { answer: await recordOf(document, "text", paper), document };
  }, [saved.id]);
  return (
    <Screen
      title={say("page.record")}
      sub={saved.title}
      back={{ at: "panel", panel: saved.panel, view: "records" }}
      steps={steps.length}
      foot={
        <div class="foot-row">
          <a class="second" href={address({ at: "leaving", job: saved.id })}>
            <Icon name="pencil" /> {say("page.add-to-it")}
          </a>
          <a class="second" href={address({ at: "job", job: saved.id, view: "next" })}>
            <Icon name="steps" /> {say("page.to-the-job")}
          </a>
          <button type="button" class="action" disabled={!record.value} onClick={() => setExporting(true)}>
            <Icon name="next" /> {say("page.hand-over")}
          </button>
        </div>
      }
    >
      <Temporaries job={job} />
      {record.error !== undefined && <Trouble error={record.error} />}
      {!record.value && record.busy && <p class="wait">{say("page.writing-record")}</p>}
      {record.value && <RecordSheet record={record.value.answer} paper={paper} />}
      {exporting && record.value && (
        <ExportSheet
          over={{ at: "share", kind: "job", id: saved.id }}
          document={record.value.document}
          paper={paper}
          choose={setPaper}
          close={() => setExporting(false)}
        />
      )}
    </Screen>
  );
}
