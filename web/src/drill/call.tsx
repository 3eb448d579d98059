// What a real call gives: a complaint, what the caller saw, and somebody to ask.
import { say } from "../words.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import type { Playing } from "./attempt.tsx";

export function Call({ playing: { saved, drill, state, act, busy } }: { playing: Playing }) {
  const asked = new Set(state.log.filter((entry) => entry.act.kind === "ask").map((entry) => entry.act.thing));
  const answers = new Map(
    state.log.filter((entry) => entry.act.kind === "ask").map((entry) => [entry.act.thing, entry.seen[0]?.text ?? ""]),
  );
  const known = [
    ...drill.dead.map((ref) => say("page.saw-dead", { name: ref })),
    ...drill.works.map((ref) => say("page.saw-works", { name: ref })),
    ...drill.sees.map(({ ref, text }) => say("page.looked", { ref, state: text })),
    ...drill.reads.map(({ mode, red, black, shown }) => say("page.read", { mode, red, black, value: shown })),
  ];
  return (
    <>
      <blockquote class="complaint">{drill.complaint}</blockquote>
      {known.length > 0 && (
        <ul class="plain known">
          {known.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      {drill.questions.length > 0 && <h2 class="heading">{say("page.ask-operator")}</h2>}
      <ul class="choices">
        {drill.questions.map((question, index) => {
          const number = String(index + 1);
          return (
            <li key={number}>
              {asked.has(number) ? (
                <p class="answered">
                  <small>{question}</small>
                  {answers.get(number)}
                </p>
              ) : (
                <button type="button" class="choice" disabled={busy} onClick={() => void act({ kind: "ask", thing: number })}>
                  <span>{question}</span>
                  <Icon name="next" />
                </button>
              )}
            </li>
          );
        })}
      </ul>
      <details class="also-down">
        <summary>
          <Icon name="caution" /> {say("page.rules-of-drill")}
        </summary>
        <ul class="plain rules">
          {drill.goals.map((goal) => (
            <li key={goal}>{goal}</li>
          ))}
          {drill.marked.map((point) => (
            <li key={point}>{say("page.marked-point", { point })}</li>
          ))}
          {drill.gates.map(({ gate, effect, text }) => (
            <li key={gate}>{say(`page.gate-${effect as "end" | "cap" | "note"}`, { what: text })}</li>
          ))}
        </ul>
      </details>
      {saved.attempt.text !== "" && (
        <a class="second" href={address({ at: "share", kind: "drill", id: saved.id })}>
          <Icon name="send" /> {say("page.hand-drill-over")}
        </a>
      )}
    </>
  );
}
