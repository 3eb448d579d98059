// A word, a tag or a letter code, and what the core takes it for: one tap
// chooses. The reason stands with each.
import { useState } from "preact/hooks";
import type { Candidate } from "../core/api.ts";
import { guess } from "../core/ask.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { Entry } from "./fields.tsx";

interface Props {
  /** What is named stands on a strip. */
  block?: boolean;
  name: string;
  hint: string;
  take: (candidate: Candidate) => void;
}

export function Guesses({ block = false, name, hint, take }: Props) {
  const [word, setWord] = useState("");
  const [all, setAll] = useState(false);
  const typed = word.trim();
  const found = useAnswer(
    async (signal) => ({ typed, list: (await guess(typed, signal)).filter((candidate) => candidate.block === block) }),
    [typed],
  );
  // Guesses at what was typed before are not offered: a thumb would take them.
  const list = found.value?.typed === typed ? found.value.list : null;
  const unasked = block && typed === "" && !all;
  return (
    <>
      <Entry name={name} hint={hint} value={word} set={setWord} first={!block} />
      {found.error !== undefined && <Trouble error={found.error} />}
      <div role="status" class="unseen">
        {typed !== "" && list && say("page.build-guesses", { n: list.length })}
      </div>
      {list?.length === 0 && typed !== "" && <p class="note">{say("page.build-no-guess")}</p>}
      {unasked && (
        <button type="button" class="second" onClick={() => setAll(true)}>
          <Icon name="list" /> {say("page.build-all-kinds")}
        </button>
      )}
      {!unasked && list && list.length > 0 && (
        <ul class="choices">
          {list.map((candidate) => (
            <li key={candidate.kind}>
              <button type="button" class="choice guess" onClick={() => take(candidate)}>
                <span>
                  <b>{candidate.kind_name}</b>
                  {given(candidate) && <span class="guess-given">{given(candidate)}</span>}
                  {candidate.why.text && <small>{candidate.why.text}</small>}
                </span>
                <Icon name="add" />
              </button>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

/** What was read out of the text beside the kind. */
function given({ ref, tag, label, fuse, ratings }: Candidate): string {
  const figures = Object.entries(ratings).map(([name, value]) => say("page.build-rating", { name, value }));
  return [tag, ref, label, fuse, ...figures].filter(Boolean).join(" · ");
}
