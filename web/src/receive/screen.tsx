// What came in, and what becomes of it. Nothing here is kept, taken over or
// thrown away before the person says so.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import type { Unpacked } from "../core/api.ts";
import { unpack } from "../core/share.ts";
import { useKept } from "../keep/kept.ts";
import { Removed, useRemoving, type Removing } from "../keep/removed.tsx";
import { getArrival } from "../store/arrivals.ts";
import type { SavedArrival } from "../store/schema.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say, type Code } from "../words.ts";
import { Done, type Outcome } from "./done.tsx";
import { DrillArrived } from "./drill.tsx";
import { JobArrived } from "./job.tsx";
import { PanelArrived } from "./panel.tsx";

export interface Arrived {
  arrival: SavedArrival;
  came: Unpacked;
}

/** What a screen of one kind is given. */
export interface Deciding extends Arrived {
  removing: Removing;
  /** It is decided, or with null undecided again. */
  settle: (outcome: Outcome | null) => void;
}

export function ReceivedScreen({ id }: { id: string }) {
  const removing = useRemoving();
  // Kept here, since what is decided is gone from the arrivals.
  const [outcome, settle] = useState<Outcome | null>(null);
  const { value, error, busy } = useKept(
    async (): Promise<Arrived | null> => {
      const arrival = await getArrival(id);
      return arrival ? { arrival, came: await unpack(arrival.text, arrival.name) } : null;
    },
    [id],
    (change) => change.kind === "all" || (change.kind === "arrival" && change.id === id),
  );
  if (outcome) return <Done outcome={outcome} />;
  if (value) return <Decide {...value} removing={removing} settle={settle} />;
  return (
    <Screen title={say("page.received")} back={{ at: "panels" }}>
      {error !== undefined && <Trouble error={error} />}
      {value === undefined && busy && <p class="wait">{say("page.reading-drawing")}</p>}
      {value === null && !removing.last && <p class="wait">{say("page.received-gone")}</p>}
      <Removed removing={removing} />
    </Screen>
  );
}

function Decide(deciding: Deciding) {
  switch (deciding.came.kind) {
    case "drill":
      return <DrillArrived {...deciding} />;
    case "job":
      return <JobArrived {...deciding} />;
  }
  return <PanelArrived {...deciding} />;
}

const kinds: Record<string, Code> = { panel: "page.received-panel", drill: "page.received-drill", job: "page.received-job" };

interface FrameProps extends Deciding {
  foot?: ComponentChildren;
  children: ComponentChildren;
}

/** What every arrival shows: what it is, from where, and the way to put it away. */
export function Frame({ arrival, came, removing, foot, children }: FrameProps) {
  const { id, name, title, received } = arrival;
  const then = when.format(new Date(received));
  return (
    <Screen title={title || say("page.received")} sub={say(kinds[came.kind] ?? "page.received")} back={{ at: "panels" }} foot={foot}>
      <section class="stack" data-received={came.kind}>
        <p class="note">{name ? say("page.received-as", { name, when: then }) : say("page.received-at", { when: then })}</p>
      </section>
      {children}
      <button type="button" class="second apart" onClick={() => removing.remove("arrival", id, title)}>
        <Icon name="bin" /> {say("page.put-away")}
      </button>
    </Screen>
  );
}
