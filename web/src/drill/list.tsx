// Drills to take, by grade, and those that were begun.
import { useState } from "preact/hooks";
import { drills } from "../core/drills.ts";
import type { DrillDef } from "../core/api.ts";
import { useKept } from "../keep/kept.ts";
import { incomingFile } from "../receive/incoming.ts";
import { attempts, type SavedAttempt } from "../store/drills.ts";
import { useAnswer } from "../ui/answer.ts";
import { when } from "../ui/date.ts";
import { FileButton } from "../ui/filebutton.tsx";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say, type Code } from "../words.ts";
import { begin } from "./begin.ts";
import { Shorts } from "./short.tsx";

const grades: readonly Code[] = ["page.grade-1", "page.grade-2", "page.grade-3", "page.grade-4"];

export function DrillsScreen() {
  const known = useAnswer(drills, []);
  const mine = useKept(attempts, []);
  const done = new Map<string, SavedAttempt>();
  for (const one of mine.value ?? []) if (one.attempt.result && !done.has(one.title)) done.set(one.title, one);
  const [error, setError] = useState<unknown>();
  const read = async (file: File): Promise<void> => {
    setError(undefined);
    try {
      await incomingFile(file);
    } catch (why) {
      setError(why);
    }
  };
  const open = (mine.value ?? []).find(({ attempt }) => attempt.result === "");
  return (
    <Screen
      title={say("page.drills")}
      back={{ at: "panels" }}
      foot={
        <div class="foot-row">
          <FileButton label={say("page.open-drill")} icon="add" read={read} />
          <a class="second" href={address({ at: "scan" })}>
            <Icon name="scan" /> {say("page.scan")}
          </a>
          <a class="second" href={address({ at: "attempts" })}>
            <Icon name="list" /> {say("page.attempts")}
          </a>
        </div>
      }
    >
      {known.error !== undefined && <Trouble error={known.error} />}
      {error !== undefined && <Trouble error={error} />}
      {open && (
        <a class="card" href={address({ at: "drill", attempt: open.id, view: "call" })}>
          <span>
            <b>{say("page.go-on", { title: open.title })}</b>
            <small>{say("page.begun", { when: when.format(new Date(open.started)) })}</small>
          </span>
          <Icon name="next" />
        </a>
      )}
      {known.busy && <p class="wait">{say("page.starting")}</p>}
      <Shorts panel="demo:training-bench" />
      {grades.map((code, index) => {
        const these = (known.value ?? []).filter(({ grade }) => grade === index + 1);
        return these.length === 0 ? null : (
          <section key={code}>
            <h2 class="heading">{say(code)}</h2>
            <ul class="choices">
              {these.map((drill) => (
                <li key={drill.demo}>
                  <One drill={drill} last={done.get(drill.name)} />
                </li>
              ))}
            </ul>
          </section>
        );
      })}
    </Screen>
  );
}

function One({ drill, last }: { drill: DrillDef; last: SavedAttempt | undefined }) {
  const [busy, setBusy] = useState(false);
  return (
    <button
      type="button"
      class="choice"
      disabled={busy}
      onClick={() => {
        setBusy(true);
        void begin(drill, 0);
      }}
    >
      <span>
        <b>{drill.name}</b>
        <small>{drill.panel}</small>
      </span>
      {last && <span class="grade">{resultWord(last.attempt.result)}</span>}
      <Icon name="next" />
    </button>
  );
}

const results: Record<string, Code> = {
  found: "page.result-found",
  guessed: "page.result-guessed",
  partly: "page.result-partly",
  "not-found": "page.result-not-found",
  capped: "page.result-capped",
  "gate-ended": "page.result-gate-ended",
};

export function resultWord(result: string): string {
  const code = results[result];
  return code ? say(code) : result;
}
