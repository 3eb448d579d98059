// A record from elsewhere that was kept.
import { readRecord } from "../core/share.ts";
import { useKept } from "../keep/kept.ts";
import { RecordSheet } from "../record/sheet.tsx";
import { getPaper } from "../store/papers.ts";
import { when } from "../ui/date.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";

export function PaperScreen({ paper }: { paper: string }) {
  const { value, error, busy } = useKept(
    async () => {
      const saved = await getPaper(paper);
      return saved ? { saved, record: await readRecord(saved.document) } : null;
    },
    [paper],
    (change) => change.kind === "all" || (change.kind === "paper" && change.id === paper),
  );
  return (
    <Screen
      title={value?.saved.title || say("page.record-elsewhere")}
      sub={value ? say("page.paper-received", { when: when.format(new Date(value.saved.received)) }) : undefined}
      back={value ? { at: "panel", panel: value.saved.panel, view: "records" } : { at: "panels" }}
    >
      {error !== undefined && <Trouble error={error} />}
      {value === undefined && busy && <p class="wait">{say("page.opening")}</p>}
      {value === null && <p class="wait">{say("page.no-such-record")}</p>}
      {value && <RecordSheet record={value.record} paper="A4" />}
    </Screen>
  );
}
