// The keypad for a figure that is none of the offered outcomes. The point key
// takes a comma's place where that is what people write.
import { useState } from "preact/hooks";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { figureOf, keyOf, press, unitsOf, type Key, type Unit } from "./entry.ts";

interface Props {
  mode: string;
  title: string;
  sub: string;
  close: () => void;
  /** In volts or ohms, and as it stood on the display. */
  enter: (value: number | "OL", shown: string) => void;
}

const decimal = (1.5).toLocaleString().includes(",") ? "," : ".";

const keys: { key: Key; face: string; label?: string }[] = [
  ...(["7", "8", "9"] as const).map((key) => ({ key, face: key })),
  { key: "back", face: "⌫", label: say("page.key-back") },
  ...(["4", "5", "6"] as const).map((key) => ({ key, face: key })),
  { key: "sign", face: "±", label: say("page.key-sign") },
  ...(["1", "2", "3"] as const).map((key) => ({ key, face: key })),
  { key: "OL", face: "OL", label: say("page.key-ol") },
  { key: "0", face: "0" },
  { key: "point", face: decimal, label: say("page.key-point") },
];

export function Keypad({ mode, title, sub, close, enter }: Props) {
  const [text, setText] = useState("");
  const [unit, setUnit] = useState<Unit>(unitsOf(mode)[0]);
  const figure = figureOf(text, unit);
  const done = (): void => {
    if (figure !== null) enter(figure, figure === "OL" ? "OL" : `${text} ${unit}`);
  };
  return (
    <Dialog title={title} sub={sub} close={close}>
      <div
        class="keypad"
        onKeyDown={(event) => {
          const key = keyOf(event.key);
          if (key) setText(press(text, key));
          if (key) event.preventDefault();
        }}
      >
        <output class="display" aria-live="polite">
          {text === "" ? " " : text.replace("-", "−").replace(".", decimal)} {text !== "OL" && <small>{unit}</small>}
        </output>
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
              aria-label={label ?? face}
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
