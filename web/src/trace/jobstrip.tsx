// The strips with the search laid over them: suspects ringed, the next
// reading's two points marked.
import { useEffect, useState } from "preact/hooks";
import type { Find, StripView } from "../core/api.ts";
import { noMarks, type Marks } from "../panel/marks.ts";
import { keyOf, type Thing } from "../panel/search.ts";
import type { OpenPanel } from "../panel/sessions.ts";
import { Strip } from "../panel/strip.tsx";
import { ThingSheet } from "../panel/things.tsx";
import { useAnswer } from "../ui/answer.ts";
import { Screen } from "../ui/screen.tsx";
import { say } from "../words.ts";
import type { Job } from "./job.tsx";
import { Leads } from "./prompt.tsx";

export function JobStrip({
  job,
  open: { session, opened },
  find,
  at,
}: {
  job: Job;
  open: OpenPanel;
  find: Find;
  at: string;
}) {
  const [chosen, setChosen] = useState<Thing | null>(null);
  const healthy = useAnswer((signal) => session.state(at, [], signal), [session, at]);
  const likely = find.suspects.filter(({ consistent }) => consistent);
  const marks: Marks = {
    ...noMarks,
    rings: new Set(likely.flatMap(({ points }) => points)),
    red: find.next?.red ?? "",
    black: find.next?.black ?? "",
  };
  useEffect(() => {
    document.querySelector(".probe-red, .block-ringed")?.scrollIntoView({ block: "center" });
  }, []);
  return (
    <Screen awake title={say("page.on-strip")} sub={job.saved.title} back={{ at: "job", job: job.saved.id, view: "next" }}>
      {find.next?.kind === "reading" && <Leads next={find.next} wrong={job.wrong} />}
      <p class="note">{say("page.strip-note")}</p>
      {opened.strips
        .filter((strip) => isMarked(strip, marks))
        .map((strip) => (
          <Strip
            key={strip.ref}
            strip={strip}
            marks={marks}
            choose={(block) => setChosen({ kind: "block", block, strip: strip.ref })}
          />
        ))}
      {chosen && (
        <ThingSheet
          key={keyOf(chosen)}
          thing={chosen}
          panel={job.saved.panel}
          session={session}
          opened={opened}
          state={healthy.value}
          close={() => setChosen(null)}
          choose={setChosen}
          wrong={(point) => {
            setChosen(null);
            job.wrong(point);
          }}
          dead={(ref) => void job.append({ kind: "saw", ref, sight: "dead" })}
        />
      )}
    </Screen>
  );
}

/** Only the strips that the search is about; the whole panel is one tap back. */
function isMarked(strip: StripView, { rings, red, black }: Marks): boolean {
  return strip.blocks.some(
    ({ ref, levels }) =>
      rings.has(ref) ||
      levels.some((level) =>
        [level.in, level.out].some((point) => rings.has(point) || point === red || point === black),
      ),
  );
}
