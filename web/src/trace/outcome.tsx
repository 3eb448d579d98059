// How a search ends: the culprit with its repair, several that no reading tells
// apart, nothing wrong, or nothing that explains the readings.
import type { Find, Suspect } from "../core/api.ts";
import { Icon } from "../ui/icon.tsx";
import type { Step } from "../store/step.ts";
import { say } from "../words.ts";
import type { Job } from "./job.tsx";
import { useFocus } from "../ui/focus.ts";
import { isAsked, Prompt, promptAt } from "./prompt.tsx";

interface Props {
  job: Job;
  find: Find;
  enter: (step: Step) => void;
}

export function Outcome({ job, find, enter }: Props) {
  const { repaired } = job.account;
  const heading = useFocus<HTMLHeadingElement>();
  const culprits =
    find.status === "found"
      ? find.suspects.slice(0, 1)
      : find.status === "cannot-separate"
        ? find.suspects.filter((s) => s.consistent)
        : [];
  return (
    <div class="outcome-page">
      <h2 ref={heading} tabIndex={-1} class="lead-in">
        {find.text}
      </h2>
      {find.misfit && (
        <div class="box box-warn">
          <Icon name="wrong" />
          <p>{find.misfit.text}</p>
        </div>
      )}
      {find.next?.kind === "repair" && find.next.cautions.length > 0 && (
        <div class="box box-warn">
          <Icon name="caution" />
          <ul class="plain">
            {find.next.cautions.map(({ code, text }) => (
              <li key={code + text}>{text}</li>
            ))}
          </ul>
        </div>
      )}
      {culprits.map((suspect) => (
        <Culprit
          key={suspect.place + suspect.repair}
          suspect={suspect}
          done={repaired?.place === suspect.place}
          repaired={find.status === "cannot-separate" && !repaired ? () => enter(repairOf(suspect)) : null}
        />
      ))}
      {find.checklist.length > 0 && (
        <section>
          <h2 class="heading">{say("page.checklist")}</h2>
          <ol class="checklist">
            {find.checklist.map(({ code, text }) => (
              <li key={code + text}>{text}</li>
            ))}
          </ol>
        </section>
      )}
      {isAsked(find.next) && (
        <section>
          <h2 class="heading">{say("page.still-to-measure")}</h2>
          <Prompt below next={find.next} why={find.text} at={promptAt(job)} enter={enter} showSteps={() => undefined} />
        </section>
      )}
    </div>
  );
}

export const repairOf = ({ place, repair, faults, names }: Suspect): Step => ({ kind: "repaired", place, repair, faults, names });

interface CulpritProps {
  suspect: Suspect;
  done: boolean;
  /** Notes that it was this one and no other; null where that needs no saying. */
  repaired: (() => void) | null;
}

function Culprit({ suspect, done, repaired }: CulpritProps) {
  return (
    <section class="culprit">
      <div class="culprit-place">
        <span class="marker marker-big">{suspect.place}</span>
        <span class="chance">{percent(suspect.probability)}</span>
      </div>
      <ul class="plain">
        {suspect.names.map((name) => (
          <li key={name}>{name}</li>
        ))}
      </ul>
      <h2 class="heading">{say("page.repair")}</h2>
      <p>{suspect.repair}</p>
      {suspect.evidence.length > 0 && (
        <details>
          <summary>{say("page.because")}</summary>
          <ul class="plain">
            {suspect.evidence.map(({ text }) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </details>
      )}
      {repaired && (
        <button type="button" class="second" onClick={repaired}>
          <Icon name="works" /> {say("page.was-this")}
        </button>
      )}
      {done && <Noted />}
    </section>
  );
}

/** The button that noted it is gone: this is what is read out instead. */
function Noted() {
  const said = useFocus<HTMLParagraphElement>("within");
  return (
    <p ref={said} tabIndex={-1} class="box" data-repaired>
      <Icon name="works" /> {say("page.repair-noted")}
    </p>
  );
}

export function percent(probability: number): string {
  // "100 %" would say that nothing else is possible, and that is never so.
  return probability > 0.99
    ? say("page.over-99")
    : say("page.percent", { n: Math.max(1, Math.round(100 * probability)) });
}
