// The keypad for a figure that is none of the offered outcomes. A comma on a real
// keyboard is the point; what is shown has a point, as a meter's display has.
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { figureOf, keyOf, press, twoPoints, unitsOf, type Key, type Unit } from "./entry.ts";
import { forgetTyped, keepTyped, typedFor } from "./typed.ts";

interface Props {
  /** Which prompt is answered: what is half typed is kept for it. */
  prompt: string;
  mode: string;
  title: string;
  sub: string;
  close: () => void;
  /** In volts or ohms, and as it stood on the display. */
  enter: (value: number | "OL", shown: string) => void;
}

const keys: { key: Key; face: ComponentChildren; label?: string }[] = [
  ...(["7", "8", "9"] as const).map((key) => ({ key, face: key })),
  { key: "back", face: <Icon name="erase" />, label: say("page.key-back") },
  ...(["4", "5", "6"] as const).map((key) => ({ key, face: key })),
  { key: "sign", face: "±", label: say("page.key-sign") },
  ...(["1", "2", "3"] as const).map((key) => ({ key, face: key })),
  { key: "OL", face: "OL", label: say("page.key-ol") },
  { key: "0", face: "0" },
  { key: "point", face: ".", label: say("page.key-point") },
];

export function Keypad({ prompt, mode, title, sub, close, enter }: Props) {
  const [text, setText] = useState(() => typedFor(prompt)?.text ?? "");
  const [unit, setUnit] = useState<Unit>(() => {
    const kept = typedFor(prompt)?.unit;
    return unitsOf(mode).find((name) => name === kept) ?? unitsOf(mode)[0];
  });
  useEffect(() => {
    if (text === "") forgetTyped();
    else keepTyped(prompt, { text, unit });
  }, [text, unit]);
  const figure = figureOf(text, unit);
  const done = (): void => {
    if (figure === null) return;
    forgetTyped();
    enter(figure, figure === "OL" ? "OL" : `${text} ${unit}`);
  };
  const leave = (): void => {
    forgetTyped();
    close();
  };
  return (
    <Dialog title={title} sub={sub} close={leave}>
      <div
        class="keypad"
        tabIndex={-1}
        autofocus
        onKeyDown={(event) => {
          // On a key of the pad, Enter presses that key.
          if (event.key === "Enter" && event.target === event.currentTarget) done();
          const key = keyOf(event.key);
          if (key) setText(press(text, key));
          if (key) event.preventDefault();
        }}
      >
        <output class="display" aria-live="polite">
          {text === "" ? " " : text.replace("-", "−")} {text !== "OL" && <small>{unit}</small>}
        </output>
        {twoPoints(text) && (
          <p class="said-wrong" role="alert">
            <Icon name="caution" /> {say("page.one-point")}
          </p>
        )}
        <fieldset class="units">
          <legend class="unseen">{say("page.unit")}</legend>
          {unitsOf(mode).map((name) => (
            <label key={name} class={name === unit ? "unit unit-on" : "unit"}>
              <input type="radio" class="unseen" name="unit" checked={name === unit} onChange={() => setUnit(name)} />
              {name}
            </label>
          ))}
        </fieldset>
        <div class="keys">
          {keys.map(({ key, face, label }) => (
            <button
              key={key}
              type="button"
              class="key"
              aria-label={label ?? key}
              onClick={() => setText(press(text, key))}
            >
              {face}
            </button>
          ))}
          <button type="button" class="key key-enter" disabled={figure === null} onClick={done}>
            <Icon name="works" /> {say("page.enter")}
          </button>
        </div>
      </div>
    </Dialog>
  );
}
