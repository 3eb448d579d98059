// What was learned, attempt by attempt: classes of faults over time, on this
// phone only. The learner hands out what he wants to hand out.
import { useState } from "preact/hooks";
import { useKept } from "../keep/kept.ts";
import { Removed, useRemoving } from "../keep/removed.tsx";
import { attempts, changeAttempt, type SavedAttempt } from "../store/drills.ts";
import { when } from "../ui/date.ts";
import { Dialog } from "../ui/dialog.tsx";
import { download } from "../ui/download.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { say, type Code } from "../words.ts";
import { csvOf } from "./csv.ts";
import { resultWord } from "./list.tsx";

const classes: Record<string, Code> = {
  open: "page.class-open",
  resistive: "page.class-resistive",
  short: "page.class-short",
  "wrong-place": "page.class-wrong-place",
  part: "page.class-part",
};
const classWord = (name: string): string => {
  const code = classes[name];
  return code ? say(code) : name;
};

export function AttemptsScreen() {
  const all = useKept(attempts, []).value ?? [];
  const removing = useRemoving();
  const [open, setOpen] = useState<SavedAttempt | null>(null);
  const ended = all.filter(({ attempt }) => attempt.result !== "");
  const learners = [...new Set(ended.map(({ attempt }) => attempt.learner))];
  return (
    <Screen
      title={say("page.attempts")}
      back={{ at: "drills" }}
      foot={
        <button type="button" class="second" disabled={ended.length === 0} onClick={() => download(new File([csvOf(ended)], "attempts.csv", { type: "text/csv" }))}>
          <Icon name="next" /> {say("page.as-table")}
        </button>
      }
    >
      {ended.length === 0 && <p class="wait">{say("page.no-attempts")}</p>}
      <Removed removing={removing} />
      {learners.map((learner) => {
        const own = ended.filter(({ attempt }) => attempt.learner === learner);
        return (
          <section key={learner}>
            <h2 class="heading">{learner || say("page.no-name")}</h2>
            <ul class="known plain">
              {[...countClasses(own)].map(([name, { found, tried }]) => (
                <li key={name}>{say("page.class-count", { class: classWord(name), found, tried })}</li>
              ))}
            </ul>
            <ul class="choices">
              {own.map((one) => (
                <li key={one.id}>
                  <button type="button" class="choice" onClick={() => setOpen(one)}>
                    <span>
                      <b>{one.title}</b>
                      <small>{when.format(new Date(one.started))}</small>
                      {one.attempt.signed && <small>{say("page.signed-by", { who: one.attempt.signed })}</small>}
                    </span>
                    <span class="grade">{resultWord(one.attempt.result)}</span>
                  </button>
                </li>
              ))}
            </ul>
          </section>
        );
      })}
      {open && (
        <One
          one={open}
          close={() => setOpen(null)}
          remove={() => {
            removing.remove("drill", open.id, open.title);
            setOpen(null);
          }}
        />
      )}
    </Screen>
  );
}

/** Per class of fault: how often it was hidden, and how often found. */
function countClasses(own: readonly SavedAttempt[]): Map<string, { found: number; tried: number }> {
  const counts = new Map<string, { found: number; tried: number }>();
  for (const { attempt } of own) {
    for (const name of attempt.classes) {
      const count = counts.get(name) ?? { found: 0, tried: 0 };
      counts.set(name, { found: count.found + (attempt.result === "found" ? 1 : 0), tried: count.tried + 1 });
    }
  }
  return counts;
}

function One({ one, close, remove }: { one: SavedAttempt; close: () => void; remove: () => void }) {
  const [remark, setRemark] = useState(one.attempt.remark);
  const [signed, setSigned] = useState(one.attempt.signed);
  const keep = (): void => void changeAttempt(one.id, (old) => ({ ...old, remark, signed })).then(close);
  return (
    <Dialog title={one.title} sub={when.format(new Date(one.started))} close={close}>
      <p>
        {say("page.attempt-facts", {
          result: resultWord(one.attempt.result),
          minutes: one.attempt.minutes.toFixed(1),
          readings: one.attempt.readings,
        })}
      </p>
      <a class="second" href={address({ at: "drill", attempt: one.id, view: "call" })}>
        <Icon name="steps" /> {say("page.debrief")}
      </a>
      <label class="datum datum-wide">
        <span>{say("page.trainer-remark")}</span>
        <input type="text" value={remark} onInput={(event) => setRemark(event.currentTarget.value)} />
      </label>
      <label class="datum datum-wide">
        <span>{say("page.signed-off")}</span>
        <input type="text" value={signed} onInput={(event) => setSigned(event.currentTarget.value)} />
      </label>
      <button type="button" class="action" onClick={keep}>
        <Icon name="works" /> {say("page.note-it")}
      </button>
      <div class="apart">
        <button type="button" class="second" onClick={remove}>
          <Icon name="close" /> {say("page.remove", { title: one.title })}
        </button>
      </div>
    </Dialog>
  );
}
