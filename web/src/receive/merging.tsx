// Two copies become one: what only one side changed is taken, and of what both
// changed a person decides, one thing after the other.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { Conflict } from "../core/api.ts";
import { edit } from "../core/ask.ts";
import { merge, type Copies } from "../core/share.ts";
import { Problems } from "../panel/problems.tsx";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { Differences } from "./differences.tsx";

type Side = "ours" | "theirs" | "both";

interface Props {
  title: string;
  copies: Copies;
  keep: (merged: { title: string; text: string }) => Promise<void>;
  leave: () => void;
  trouble: ComponentChildren;
}

export function Merging({ title, copies, keep, leave, trouble }: Props) {
  const [choices, setChoices] = useState<Readonly<Record<string, Side>>>({});
  const { value: merged, error, busy } = useAnswer(() => merge(copies, choices), [copies.ours, copies.base, choices]);
  const read = useAnswer(async () => (merged ? edit({ text: merged.document }, []) : null), [merged?.document]);
  const choose = (paths: readonly string[], side: Side): void =>
    setChoices((before) => ({ ...before, ...Object.fromEntries(paths.map((path) => [path, side])) }));
  const forget = (path: string): void =>
    setChoices((before) => Object.fromEntries(Object.entries(before).filter(([key]) => key !== path)));

  if (!merged) {
    return (
      <Screen title={title} sub={say("page.merge")} back={{ at: "panels" }} leave={leave}>
        {error !== undefined ? <Trouble error={error} /> : <p class="wait">{say("page.comparing")}</p>}
      </Screen>
    );
  }
  const open = merged.conflicts.filter(({ chosen }) => !chosen);
  const decided = merged.conflicts.filter(({ chosen }) => chosen);
  const [next] = open;
  // As the core opens a panel: without one error.
  const opened = read.value?.errors === 0 ? read.value.opened : undefined;
  return (
    <Screen
      title={title}
      sub={say("page.merge")}
      back={{ at: "panels" }}
      leave={leave}
      foot={
        !next &&
        opened && (
          <button
            type="button"
            class="action"
            disabled={busy || read.busy}
            onClick={() => void keep({ title: opened.name, text: merged.document })}
          >
            <Icon name="held" /> {say("page.keep-merged")}
          </button>
        )
      }
    >
      {trouble}
      {next && (
        <Decide
          key={next.path}
          conflict={next}
          at={decided.length + 1}
          all={merged.conflicts.length}
          choose={(side) => choose([next.path], side)}
          rest={(side) => choose(open.map(({ path }) => path), side)}
        />
      )}
      {!next && (
        <>
          <div class="box" role="status">
            <Icon name="works" />
            <p class="strong">{say("page.merge-decided")}</p>
          </div>
          {read.value && !opened && (
            <div class="box box-warn" role="alert">
              <Icon name="caution" />
              <div>
                <p class="strong">{say("page.merge-unusable")}</p>
                <ul class="places">
                  {merged.problems.map(({ path, text }) => (
                    <li key={`${path} ${text}`}>{text}</li>
                  ))}
                </ul>
              </div>
            </div>
          )}
          {opened && <Problems bare problems={merged.problems} />}
        </>
      )}
      {decided.length > 0 && <Decided list={decided} forget={forget} />}
      {merged.taken.length > 0 && (
        <section class="stack">
          <h2 class="heading">{say("page.merge-taken")}</h2>
          <Differences list={merged.taken} />
        </section>
      )}
      <button type="button" class="second" onClick={leave}>
        <Icon name="back" /> {say("page.merge-leave")}
      </button>
    </Screen>
  );
}

interface DecideProps {
  conflict: Conflict;
  at: number;
  all: number;
  choose: (side: Side) => void;
  rest: (side: Side) => void;
}

function Decide({ conflict: { path, what, thing, field, was, is, base, both }, at, all, choose, rest }: DecideProps) {
  return (
    <section class="stack conflict" data-conflict={path} aria-live="polite">
      <h2 class="heading">{say("page.conflict", { at, all })}</h2>
      <p class="told">
        <b>{[thing, field].filter(Boolean).join(", ")}</b>
        {base && <small>{say("page.conflict-base", { base })}</small>}
      </p>
      <button type="button" class="side" onClick={() => choose("ours")}>
        <small>{say("page.side-ours")}</small>
        <b>{what === "added" ? say("page.side-absent") : was}</b>
      </button>
      <button type="button" class="side" onClick={() => choose("theirs")}>
        <small>{say("page.side-theirs")}</small>
        <b>{what === "removed" ? say("page.side-absent") : is}</b>
      </button>
      {both && (
        <button type="button" class="side" onClick={() => choose("both")}>
          <small>{say("page.side-both")}</small>
          <b>{`${was} / ${is}`}</b>
        </button>
      )}
      {all - at > 0 && (
        <div class="foot-row">
          <button type="button" class="second" onClick={() => rest("ours")}>
            {say("page.rest-ours", { n: all - at + 1 })}
          </button>
          <button type="button" class="second" onClick={() => rest("theirs")}>
            {say("page.rest-theirs", { n: all - at + 1 })}
          </button>
        </div>
      )}
    </section>
  );
}

function Decided({ list, forget }: { list: readonly Conflict[]; forget: (path: string) => void }) {
  return (
    <section class="stack">
      <h2 class="heading">{say("page.merge-chosen")}</h2>
      <ul class="choices">
        {list.map(({ path, thing, field, taken }) => (
          <li key={path}>
            <button type="button" class="choice" onClick={() => forget(path)}>
              <span>
                {[thing, field].filter(Boolean).join(", ")}
                <small>{say(`page.taken-${taken as Side}`)}</small>
              </span>
              <Icon name="undo" />
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
