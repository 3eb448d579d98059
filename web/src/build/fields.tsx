// What is typed or counted with a thumb.
import type { ComponentChildren } from "preact";
import { useId, useState } from "preact/hooks";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";

interface EntryProps {
  name: string;
  hint?: string;
  value: string;
  set: (value: string) => void;
  /** Where a sheet opens to be typed in. */
  first?: boolean;
}

export function Entry({ name, hint, value, set, first = false }: EntryProps) {
  return (
    <label class="datum datum-wide">
      <span>
        {name}
        {hint && <small>{hint}</small>}
      </span>
      <input
        type="text"
        autocomplete="off"
        spellcheck={false}
        autofocus={first}
        value={value}
        onInput={(event) => set(event.currentTarget.value)}
      />
    </label>
  );
}

interface WrittenProps {
  name: string;
  hint?: string;
  was: string;
  write: (text: string) => void;
}

/** One text that stands on a thing, and the button that writes it down. */
export function Written({ name, hint, was, write }: WrittenProps) {
  const [text, setText] = useState(was);
  return (
    <form
      class="written"
      onSubmit={(event) => {
        event.preventDefault();
        if (text.trim() !== was) write(text.trim());
      }}
    >
      <Entry name={name} {...(hint && { hint })} value={text} set={setText} />
      <button
        type="submit"
        class="square"
        aria-label={say("page.build-write", { name })}
        disabled={text.trim() === was}
      >
        <Icon name="works" />
      </button>
    </form>
  );
}

interface CountProps {
  name: string;
  value: number;
  set: (value: number) => void;
  most: number;
}

/** A small number: by one with a thumb, any with the phone's digits. */
export function Count({ name, value, set, most }: CountProps) {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const to = (n: number): void => {
    setTyped(null);
    set(Math.min(most, Math.max(1, n)));
  };
  const type = (text: string): void => {
    setTyped(text);
    set(/^\d+$/.test(text) ? Math.min(most, Number(text)) : 0);
  };
  const whole = typed === null || /^\d*$/.test(typed);
  return (
    <div class="count" role="group" aria-labelledby={id}>
      <label id={id} for={`${id}-n`}>
        {name}
      </label>
      <Step name={say("page.build-less")} off={value <= 1} step={() => to(value - 1)}>
        −
      </Step>
      <input
        id={`${id}-n`}
        type="text"
        inputMode="numeric"
        autocomplete="off"
        value={whole ? value || "" : typed}
        aria-invalid={!whole}
        onFocus={(event) => event.currentTarget.select()}
        onInput={(event) => type(event.currentTarget.value.trim())}
      />
      <Step name={say("page.build-more")} off={value >= most} step={() => to(value + 1)}>
        +
      </Step>
      {!whole && (
        <p class="said-wrong" role="alert">
          <Icon name="caution" /> {say("page.whole-number")}
        </p>
      )}
    </div>
  );
}

interface StepProps {
  name: string;
  off: boolean;
  step: () => void;
  children: ComponentChildren;
}

export function Step({ name, off, step, children }: StepProps) {
  return (
    <button type="button" class="count-step" aria-label={name} disabled={off} onClick={step}>
      {children}
    </button>
  );
}
