// Saying what it is: the place and the kind of fault. Then repair, prove that it
// works, and hand the plant back.
import { useState } from "preact/hooks";
import type { Opened } from "../core/api.ts";
import { search, type Thing } from "../panel/search.ts";
import { SearchField } from "../panel/searchfield.tsx";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import type { Playing } from "./attempt.tsx";

interface Props {
  playing: Playing;
  panel: Opened;
  close: () => void;
}

/** Acts that end a search, in the order of the work. */
const after = ["repair", "prove-function", "done", "give-up"];

export function CallItSheet({ playing: { drill, state, act, busy }, panel, close }: Props) {
  const [typed, setTyped] = useState("");
  const [thing, setThing] = useState("");
  const ending = after.flatMap((kind) => state.offers.filter((offer) => offer.kind === kind));
  const done = (doing: Parameters<typeof act>[0]): void => {
    close();
    void act(doing);
  };
  return (
    <Dialog title={say("page.call-it")} sub={say("page.call-it-note")} close={close}>
      {thing === "" ? (
        <>
          <SearchField name={say("page.which-thing")} typed={typed} type={setTyped} />
          <ul class="choices">
            {typed.trim() !== "" &&
              search(panel, typed)
                .flatMap(callable)
                .map(({ name, about }) => (
                  <li key={name}>
                    <button type="button" class="choice" onClick={() => setThing(name)}>
                      <span>
                        <b>{name}</b> {about}
                      </span>
                      <Icon name="next" />
                    </button>
                  </li>
                ))}
            <li>
              <button type="button" class="choice" disabled={busy} onClick={() => done({ kind: "call", thing: "", class: "nothing" })}>
                <span>{drill.classes.find(({ code }) => code === "nothing")?.text}</span>
                <Icon name="next" />
              </button>
            </li>
          </ul>
        </>
      ) : (
        <>
          <p class="chosen">
            <b>{thing}</b>
            <button type="button" class="square" aria-label={say("page.take-off", { thing })} onClick={() => setThing("")}>
              <Icon name="close" />
            </button>
          </p>
          <h3>{say("page.which-kind")}</h3>
          <ul class="choices">
            {drill.classes
              .filter(({ code }) => code !== "nothing")
              .map(({ code, text }) => (
                <li key={code}>
                  <button type="button" class="choice" disabled={busy} onClick={() => done({ kind: "call", thing, class: code })}>
                    <span>{text}</span>
                    <Icon name="next" />
                  </button>
                </li>
              ))}
          </ul>
        </>
      )}
      <h3>{say("page.and-then")}</h3>
      <ul class="choices">
        {ending.map(({ kind, text }) => (
          <li key={kind}>
            <button type="button" class="choice" disabled={busy} onClick={() => done({ kind })}>
              <span>{text}</span>
              <Icon name="next" />
            </button>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}

/** What can be at fault on a thing found: itself, and the jumpers of a block. */
function callable(thing: Thing): { name: string; about: string }[] {
  switch (thing.kind) {
    case "part":
      return [{ name: thing.part.ref, about: thing.part.label }];
    case "wire":
      return [{ name: thing.wire.no, about: thing.wire.cable }];
    case "block":
      return [
        { name: thing.block.ref, about: thing.block.label },
        ...thing.block.faults
          .filter((fault) => fault.endsWith("=no-jumper"))
          .map((fault) => ({ name: fault.slice(0, fault.lastIndexOf("=")), about: say("page.jumper") })),
      ];
  }
}
