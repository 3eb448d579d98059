// What was called in, how long it took, and who did it; all of it optional.
import { useEffect, useState } from "preact/hooks";
import { getSetting, putSetting } from "../store/settings.ts";
import { Icon } from "../ui/icon.tsx";
import { useAnswer } from "../ui/answer.ts";
import { say } from "../words.ts";
import { minutesBetween } from "./moment.ts";
import type { ClosingJob } from "./usejob.ts";
import { Said, WordsSheet } from "./words.tsx";

/** Where the name that was given last is kept. */
const WHO = "who";

export function Signing({ job }: { job: ClosingJob }) {
  const { account, append } = job;
  const [sheet, setSheet] = useState<"complaint" | "who" | null>(null);
  const last = useAnswer(() => getSetting(WHO), []).value ?? "";
  const sign = (name: string): void => {
    void append({ kind: "who", name });
    if (name) void putSetting(WHO, name);
  };
  return (
    <>
      <Minutes job={job} />
      <section class="stack">
        <h2 class="heading">{say("page.who")}</h2>
        {account.who ? (
          <Said text={account.who} name={say("page.who-otherwise")} change={() => setSheet("who")} />
        ) : (
          <div class="foot-row">
            {last && (
              <button type="button" class="second" onClick={() => sign(last)}>
                <Icon name="works" /> {last}
              </button>
            )}
            <button type="button" class="second" onClick={() => setSheet("who")}>
              <Icon name="pencil" /> {say(last ? "page.another-name" : "page.name-optional")}
            </button>
          </div>
        )}
      </section>
      <section class="stack">
        <h2 class="heading">{say("page.called-in")}</h2>
        {account.complaint ? (
          <Said text={account.complaint} name={say("page.called-in-otherwise")} change={() => setSheet("complaint")} />
        ) : (
          <button type="button" class="second" onClick={() => setSheet("complaint")}>
            <Icon name="pencil" /> {say("page.in-callers-words")}
          </button>
        )}
      </section>
      {sheet === "who" && (
        <WordsSheet
          draft={`who ${job.saved.id}`}
          title={say("page.who")}
          sub={say("page.who-note")}
          text={account.who || last}
          keep={sign}
          close={() => setSheet(null)}
        />
      )}
      {sheet === "complaint" && (
        <WordsSheet
          draft={`complaint ${job.saved.id}`}
          title={say("page.called-in")}
          sub={say("page.in-callers-words")}
          text={account.complaint}
          keep={(text) => void append({ kind: "complaint", text })}
          close={() => setSheet(null)}
        />
      )}
    </>
  );
}

/** Suggested by the times of the steps; the pauses are left out. */
function Minutes({ job: { account, append, times } }: { job: ClosingJob }) {
  const said = account.minutes;
  const [more, setMore] = useState(0);
  useEffect(() => setMore(0), [said]);
  const minutes = Math.max(0, (said ?? minutesBetween(times)) + more);
  const by = (change: number): void => setMore(more + Math.max(change, -minutes));
  return (
    <section class="stack">
      <h2 class="heading">{say("page.minutes-at-work")}</h2>
      <div class="minutes">
        {[-5, -1].map((change) => (
          <button key={change} type="button" class="second" aria-label={say("page.minutes-less", { n: -change })} onClick={() => by(change)}>
            −{-change}
          </button>
        ))}
        <output aria-live="polite">{minutes}</output>
        {[1, 5].map((change) => (
          <button key={change} type="button" class="second" aria-label={say("page.minutes-more", { n: change })} onClick={() => by(change)}>
            +{change}
          </button>
        ))}
      </div>
      {minutes === said ? (
        <p class="note">{say("page.minutes-kept")}</p>
      ) : (
        <button type="button" class="second" onClick={() => void append({ kind: "minutes", minutes })}>
          <Icon name="works" /> {say("page.keep-minutes", { n: minutes })}
        </button>
      )}
      {said === null && <p class="note">{say("page.minutes-note")}</p>}
    </section>
  );
}
