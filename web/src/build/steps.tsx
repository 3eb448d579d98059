// What is done in order once everything stands as it should: a start button pressed
// and let go.
import { useState } from "preact/hooks";
import type { Movable, StepView } from "../core/api.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";

interface Props {
  steps: StepView[];
  /** What can be moved. */
  things: Movable[];
  write: (steps: string[]) => void;
}

export function Steps({ steps, things, write }: Props) {
  const [adding, setAdding] = useState(false);
  const all = steps.map(({ step }) => step);
  if (things.length === 0) return null;
  return (
    <section class="stack">
      <h2 class="heading">{say("page.build-steps")}</h2>
      {steps.length > 0 && (
        <ol class="step-list">
          {steps.map(({ step, text }, index) => (
            <li key={`${index} ${step}`}>
              <span>{text}</span>
              <button
                type="button"
                class="square"
                aria-label={say("page.build-step-out", { step: text })}
                onClick={() => write(all.filter((_, other) => other !== index))}
              >
                <Icon name="bin" />
              </button>
            </li>
          ))}
        </ol>
      )}
      <button type="button" class="second" onClick={() => setAdding(true)}>
        <Icon name="add" /> {say("page.build-step-add")}
      </button>
      {adding && (
        <Dialog title={say("page.build-step-add")} sub={say("page.build-step-about")} close={() => setAdding(false)}>
          <ul class="choices">
            {things.flatMap(({ positions }) =>
              positions.map(({ step: { step, text } }) => (
                <li key={step}>
                  <button
                    type="button"
                    class="choice"
                    onClick={() => {
                      setAdding(false);
                      write([...all, step]);
                    }}
                  >
                    <span>{text}</span>
                    <Icon name="add" />
                  </button>
                </li>
              )),
            )}
          </ul>
        </Dialog>
      )}
    </section>
  );
}
