// A part that is drawn: its terminals, what is written on it, and more of the same.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { PartView } from "../core/api.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { tryStep, type Drawing } from "./drawing.ts";
import { field, otherKind } from "./edits.ts";
import { Count, Entry, Written } from "./fields.tsx";
import { Guesses } from "./guesses.tsx";
import type { Act } from "./use.ts";

interface Props {
  part: PartView;
  drawing: Drawing;
  act: Act;
  /** Begins a wire at a terminal. */
  wire: (point: string) => void;
  /** What lands on it, to go on from there. */
  children: ComponentChildren;
}

export function PartSheetBody({ part, drawing, act, wire, children }: Props) {
  const [more, setMore] = useState<"copy" | "kind" | null>(null);
  if (more === "copy") return <Copies part={part} drawing={drawing} act={act} />;
  if (more === "kind") {
    return (
      <Guesses
        name={say("page.build-it-is")}
        hint={say("page.build-word-hint")}
        take={(candidate) => void act(otherKind(part.ref, candidate))}
      />
    );
  }
  return (
    <>
      <p class="heading">{say("page.build-wire-from-which")}</p>
      <div class="terminal-row">
        {part.terminals.map(({ point }) => (
          <button
            key={point}
            type="button"
            class="terminal"
            aria-label={say("page.build-wire-from", { point })}
            onClick={() => wire(point)}
          >
            {point.slice(point.indexOf(":") + 1)}
          </button>
        ))}
      </div>
      <button type="button" class="second" onClick={() => setMore("copy")}>
        <Icon name="add" /> {say("page.build-like-this")}
      </button>
      {children}
      <Written
        name={say("page.build-ref")}
        was={part.ref}
        write={(name) => void act({ op: "rename", ref: part.ref, name })}
      />
      <Written name={say("page.build-tag")} was={part.tag} write={(text) => void act(field(part.ref, "tag", text))} />
      <Written
        name={say("page.build-label")}
        was={part.label}
        write={(label) => void act({ op: "label", ref: part.ref, label })}
      />
      <Rating part={part} act={act} />
      <button
        type="button"
        class="second"
        onClick={() => void act({ op: "set", ref: part.ref, at: part.field ? "panel" : "field" })}
      >
        {say(part.field ? "page.build-in-panel" : "page.build-in-field")}
      </button>
      <button type="button" class="second" onClick={() => setMore("kind")}>
        <Icon name="swap" /> {say("page.build-other-kind", { kind: part.kind_name })}
      </button>
      <button type="button" class="second apart" onClick={() => void act({ op: "remove", ref: part.ref })}>
        <Icon name="bin" /> {say("page.build-remove", { thing: part.ref })}
      </button>
    </>
  );
}

/** A figure from the rating plate. A name the core does not know is answered with those it does. */
function Rating({ part, act }: Pick<Props, "part" | "act">) {
  const [name, setName] = useState("");
  const [value, setValue] = useState("");
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        void act({ op: "set", ref: part.ref, ratings: { [name.trim()]: value.trim() } });
      }}
    >
      <div class="pair-entry">
        <Entry name={say("page.build-rating-name")} value={name} set={setName} />
        <Entry name={say("page.build-rating-value")} value={value} set={setValue} />
      </div>
      <button type="submit" class="second" disabled={name.trim() === ""}>
        <Icon name="works" /> {say("page.build-rating-write")}
      </button>
    </form>
  );
}

const MOST = 200;

function Copies({ part, drawing, act }: Pick<Props, "part" | "drawing" | "act">) {
  const [count, setCount] = useState(1);
  const step = { op: "copy", ref: part.ref, count };
  const preview = useAnswer(async () => ({ count, made: (await tryStep(drawing, [step])).made }), [drawing, count]);
  const shown = preview.value?.count === count ? preview.value : null;
  return (
    <>
      <Count name={say("page.build-how-many")} value={count} set={setCount} most={MOST} />
      {preview.error !== undefined && <Trouble error={preview.error} />}
      <h3>{say("page.build-will-make")}</h3>
      <ul class="plain made">
        {(shown?.made ?? []).map(({ code, text }, index) => (
          <li key={`${index} ${code}`}>{text}</li>
        ))}
      </ul>
      <button type="button" class="action sheet-action" disabled={!shown} onClick={() => void act(step)}>
        <Icon name="works" /> {say("page.build-make", { n: count })}
      </button>
    </>
  );
}
