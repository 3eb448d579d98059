// A record from elsewhere that was kept: to read, to hand on, to print.
import { useState } from "preact/hooks";
import type { Job } from "../core/api.ts";
import { readRecord } from "../core/share.ts";
import { useKept } from "../keep/kept.ts";
import { ExportSheet, usePaper } from "../record/export.tsx";
import { RecordSheet } from "../record/sheet.tsx";
import { getPaper } from "../store/papers.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { LeftInPlace } from "./leftinplace.tsx";

export function PaperScreen({ paper }: { paper: string }) {
  const { value, error, busy } = useKept(
    async () => {
      const saved = await getPaper(paper);
      return saved ? { saved, record: await readRecord(saved.document) } : null;
    },
    [paper],
    (change) => change.kind === "all" || (change.kind === "paper" && change.id === paper),
  );
  const [exporting, setExporting] = useState(false);
  const [size, setSize] = usePaper();
  return (
    <Screen
      title={value?.saved.title || say("page.record-elsewhere")}
      sub={value ? say("page.paper-received", { when: when.format(new Date(value.saved.received)) }) : undefined}
      back={value ? { at: "panel", panel: value.saved.panel, view: "records" } : { at: "panels" }}
      foot={
        value && (
          <button type="button" class="action" onClick={() => setExporting(true)}>
            <Icon name="next" /> {say("page.hand-over")}
          </button>
        )
      }
    >
      {error !== undefined && <Trouble error={error} />}
      {value === undefined && busy && <p class="wait">{say("page.opening")}</p>}
      {value === null && <p class="wait">{say("page.no-such-record")}</p>}
      {value && <LeftInPlace paper={value.saved} />}
      {value && <RecordSheet record={value.record} paper={size} />}
      {exporting && value && (
        <ExportSheet
          over={{ at: "share", kind: "paper", id: paper }}
          document={JSON.parse(value.saved.document) as Job}
          paper={size}
          choose={setSize}
          close={() => setExporting(false)}
        />
      )}
    </Screen>
  );
}
