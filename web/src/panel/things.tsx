// The sheet of one thing: what is on it, where its wires go, and the two
// questions a person may have of it.
import type { Opened, State } from "../core/api.ts";
import { Attached } from "../keep/attached.tsx";
import { pointsOf, terminalsOf } from "../keep/terminals.ts";
import { Dialog } from "../ui/dialog.tsx";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { say } from "../words.ts";
import { Facts } from "./facts.tsx";
import { voltsOf } from "./marks.ts";
import { keyOf, type Thing } from "./search.ts";
import type { PanelSession } from "../core/ask.ts";
import { useAnswer } from "../ui/answer.ts";

interface Props {
  thing: Thing;
  panel: string;
  session: PanelSession;
  opened: Opened;
  state: State | undefined;
  close: () => void;
  /** Goes on to another thing. */
  choose: (thing: Thing) => void;
  /** Starts a job with this device marked dead. */
  dead: (ref: string) => void;
  /** In a job: says that the drawing is wrong at a terminal. */
  wrong?: (point: string) => void;
}

export function ThingSheet({ thing, panel, session, opened, state, close, choose, dead, wrong }: Props) {
  const volts = state ? voltsOf(state) : new Map<string, string>();
  const faults = useAnswer(() => session.faults(), [session]);
  const own = new Set(faultsOf(thing));
  const names = (faults.value?.faults ?? []).filter(({ fault }) => own.has(fault));
  const { title, sub } = headOf(thing);
  const device = thing.kind === "part" ? opened.devices.find(({ part }) => part === thing.part.ref) : undefined;
  return (
    <Dialog title={title} sub={sub} close={close}>
      <Facts thing={thing} opened={opened} volts={volts} choose={choose} />
      {device && (
        <button type="button" class="action" onClick={() => dead(device.ref)}>
          <Icon name="dead" /> {say("page.it-is-dead")}
        </button>
      )}
      {wrong && <WrongAt thing={thing} wrong={wrong} />}
      <a class="second" href={address({ at: "isolate", panel, refs: [keyOf(thing)] })}>
        <Icon name="lock" /> {say("page.isolate-this")}
      </a>
      <h3>{say("page.photos-notes")}</h3>
      <Attached owner={{ panel, job: "", thing: keyOf(thing) }} points={pointsOf(thing)} />
      <h3>{say("page.what-if-this")}</h3>
      {names.length === 0 && !faults.busy && <p>{say("page.no-faults")}</p>}
      <ul class="choices">
        {names.map(({ fault, name }) => (
          <li key={fault}>
            <a class="choice" href={address({ at: "whatif", panel, fault, view: "list" })}>
              <span>{name}</span>
              <Icon name="next" />
            </a>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}

/** One button where the thing is one piece of metal, one for each of its points otherwise. */
function WrongAt({ thing, wrong }: { thing: Thing; wrong: (point: string) => void }) {
  return (
    <div class="foot-row">
      {terminalsOf(thing).map((point) => (
        <button key={point} type="button" class="second" onClick={() => wrong(point)}>
          <Icon name="pencil" /> {say("page.wrong-at", { point })}
        </button>
      ))}
    </div>
  );
}

function faultsOf(thing: Thing): string[] {
  switch (thing.kind) {
    case "block":
      return thing.block.faults;
    case "part":
      return thing.part.faults;
    case "wire":
      return thing.wire.faults;
  }
}

function headOf(thing: Thing): { title: string; sub: string } {
  switch (thing.kind) {
    case "block":
      return { title: thing.block.ref, sub: [thing.block.label, thing.block.fuse].filter(Boolean).join(" · ") };
    case "part":
      return {
        title: [thing.part.tag, thing.part.ref].filter(Boolean).join(" "),
        sub: [thing.part.label, thing.part.kind_name].filter(Boolean).join(" · "),
      };
    case "wire":
      return {
        title: say("page.wire", { no: thing.wire.no }),
        sub: [thing.wire.size, thing.wire.colour, thing.wire.length, thing.wire.cable, thing.wire.core]
          .filter(Boolean)
          .join(" · "),
      };
  }
}
