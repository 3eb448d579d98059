// What it was and what was done: offered in the words of the search, one tap
// each, or in one's own.
import { useState } from "preact/hooks";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { isFuse, type Fed } from "./fed.ts";
import { causeOf } from "./document.ts";
import type { ClosingJob } from "./usejob.ts";
import { Said, WordsSheet } from "./words.tsx";

interface Props {
  job: ClosingJob;
  fed: Fed | null;
  /** What is written on the fuse, or "". */
  rating: string;
}

export function CauseAndRepair({ job, fed, rating }: Props) {
  const { account, append } = job;
  const { cause, repaired, done } = account;
  const [sheet, setSheet] = useState<"cause" | "done" | null>(null);
  const offered = repaired?.repair ?? "";
  const isBlown = (causeOf(account)?.faults ?? []).some(isFuse);
  return (
    <>
      <section class="stack">
        <h2 class="heading">{say("page.what-it-was")}</h2>
        {cause ? (
          <Said text={[cause.place, cause.text].filter(Boolean).join(": ")} name={say("page.cause-otherwise")} change={() => setSheet("cause")} />
        ) : (
          <Choices job={job} other={() => setSheet("cause")} />
        )}
      </section>
      {isBlown && <FuseCaution fed={fed} rating={rating} />}
      <section class="stack">
        <h2 class="heading">{say("page.what-was-done")}</h2>
        {done || !offered ? null : <p>{offered}</p>}
        {done ? (
          <Said text={done} name={say("page.done-otherwise")} change={() => setSheet("done")} />
        ) : (
          <div class="foot-row">
            {offered && (
              <button type="button" class="second" onClick={() => void append({ kind: "done", text: offered })}>
                <Icon name="works" /> {say("page.just-that")}
              </button>
            )}
            <button type="button" class="second" onClick={() => setSheet("done")}>
              <Icon name="pencil" /> {say("page.in-own-words")}
            </button>
          </div>
        )}
      </section>
      {sheet === "cause" && (
        <WordsSheet
          draft={`cause ${job.saved.id}`}
          title={say("page.what-it-was")}
          sub={say("page.cause-note")}
          text={cause?.text ?? ""}
          keep={(text) => {
            const before = causeOf(account);
            void append({ kind: "cause", faults: before?.faults ?? [], place: before?.place ?? "", text });
          }}
          close={() => setSheet(null)}
        />
      )}
      {sheet === "done" && (
        <WordsSheet
          draft={`done ${job.saved.id}`}
          title={say("page.what-was-done")}
          text={done || offered}
          keep={(text) => void append({ kind: "done", text })}
          close={() => setSheet(null)}
        />
      )}
    </>
  );
}

/** The faults that the search was left with: which of them it was. */
function Choices({ job: { account, append }, other }: { job: ClosingJob; other: () => void }) {
  const { faults = [], names = [], place = "" } = account.repaired ?? {};
  const itWas = (list: string[], text: string): void => void append({ kind: "cause", faults: list, place, text });
  return (
    <ul class="choices">
      {names.map((name, index) => (
        <li key={name}>
          <button type="button" class="choice" onClick={() => itWas([faults[index] ?? ""].filter(Boolean), name)}>
            <span>{name}</span>
            <Icon name="works" />
          </button>
        </li>
      ))}
      {names.length > 1 && (
        <li>
          <button type="button" class="choice" onClick={() => itWas(faults, names.join("; "))}>
            <span>{say("page.one-of-these")}</span>
            <Icon name="works" />
          </button>
        </li>
      )}
      <li>
        <button type="button" class="choice" onClick={other}>
          <span>{say("page.in-own-words")}</span>
          <Icon name="pencil" />
        </button>
      </li>
    </ul>
  );
}

/** A fuse is seldom the cause: what blew it is (common practice). */
function FuseCaution({ fed, rating }: { fed: Fed | null; rating: string }) {
  return (
    <div class="box box-warn" data-fuse-caution>
      <Icon name="caution" />
      <div>
        <p class="strong">{say("page.fuse-first")}</p>
        <p>{rating ? say("page.fuse-same-rating", { rating: rating.replaceAll(" ", "\u00a0") }) : say("page.fuse-same")}</p>
        {fed && fed.things.length > 0 && <p>{say("page.fuse-feeds", { things: namesOf(fed).join(", ") })}</p>}
      </div>
    </div>
  );
}

/** As people call them: tag first. */
export const namesOf = ({ things }: Fed): string[] => [
  ...new Set(things.map(({ tag, ref }) => [tag, ref].filter(Boolean).join(" "))),
];
