// A panel: its strips, its devices, and a search over all that is written on it.
import { useState } from "preact/hooks";
import type { DeviceDef, DeviceState, State } from "../core/api.ts";
import { Records } from "../keep/records.tsx";
import { InPlace } from "../record/inplace.tsx";
import { beginTrace } from "../trace/begin.ts";
import { useAnswer } from "../ui/answer.ts";
import { Cautions } from "../ui/cautions.tsx";
import { Icon } from "../ui/icon.tsx";
import { address, type Route } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { ConditionChoice, useCondition } from "./condition.tsx";
import { marksOf, noMarks } from "./marks.ts";
import { Problems } from "./problems.tsx";
import { keyOf, search, type Thing } from "./search.ts";
import { SearchField } from "./searchfield.tsx";
import { usePanel, type OpenPanel } from "./sessions.ts";
import { Strip } from "./strip.tsx";
import { ThingList } from "./thinglist.tsx";
import { ThingSheet } from "./things.tsx";

type View = Extract<Route, { at: "panel" }>["view"];

export function PanelScreen({ panel, view }: { panel: string; view: View }) {
  const open = usePanel(panel);
  if (!open.value) {
    return (
      <Screen title={open.error ? say("page.panel") : say("page.opening")} back={{ at: "panels" }}>
        {open.error ? <Trouble error={open.error} /> : <p class="wait">{say("page.reading-drawing")}</p>}
        {open.error !== undefined && (
          <a class="action" href={address({ at: "build", panel })}>
            <Icon name="pencil" /> {say("page.build-mend")}
          </a>
        )}
        {open.error !== undefined && <Records panel={panel} />}
      </Screen>
    );
  }
  return <Opened panel={panel} view={view} open={open.value} />;
}

function Opened({
  panel,
  view,
  open: { session, opened },
}: {
  panel: string;
  view: View;
  open: OpenPanel;
}) {
  const [at, setAt] = useCondition(panel, opened);
  const [typed, setTyped] = useState("");
  const [thing, setThing] = useState<Thing | null>(null);
  const state = useAnswer((signal) => session.state(at, [], signal), [session, at]);

  const trace = (...dead: string[]): void => void beginTrace(panel, opened.name, at, dead);

  return (
    <Screen
      title={opened.name}
      back={{ at: "panels" }}
      foot={
        <div class="foot-row">
          <button type="button" class="action" onClick={() => trace()}>
            <Icon name="dead" /> {say("page.something-dead")}
          </button>
          <a class="second" href={address({ at: "meter", panel, mode: "vdc", red: "", black: "", fault: "" })}>
            <Icon name="dial" /> {say("page.meter")}
          </a>
          <a class="second" href={address({ at: "isolate", panel, refs: [] })}>
            <Icon name="lock" /> {say("page.isolate")}
          </a>
        </div>
      }
    >
      <SearchField name={say("page.search-hint")} typed={typed} type={setTyped} />
      {typed.trim() !== "" ? (
        <Results things={search(opened, typed)} choose={setThing} />
      ) : (
        <nav class="tabs tabs-upright" aria-label={say("page.views")}>
            <a
              href={address({ at: "panel", panel, view: "strips" })}
              aria-current={view === "strips" ? "page" : undefined}
            >
              <Icon name="strip" /> {say("page.strips")}
            </a>
            <a
              href={address({ at: "panel", panel, view: "devices" })}
              aria-current={view === "devices" ? "page" : undefined}
            >
              <Icon name="list" /> {say("page.devices")}
            </a>
            <a
              href={address({ at: "panel", panel, view: "records" })}
              aria-current={view === "records" ? "page" : undefined}
            >
              <Icon name="note" /> {say("page.records")}
            </a>
            <a href={address({ at: "build", panel })}>
              <Icon name="pencil" /> {say("page.build-tab")}
            </a>
        </nav>
      )}
      {typed.trim() === "" && <InPlace panel={panel} />}
      {typed.trim() === "" && view === "records" && <Records panel={panel} />}
      {typed.trim() === "" && view !== "records" && (
        <>
          <Cautions cautions={opened.cautions} />
          <ConditionChoice opened={opened} at={at} choose={setAt} />
          <Problems problems={opened.problems} />
          <Cautions cautions={state.value?.flags ?? []} />
          {state.error !== undefined && <Trouble error={state.error} />}
          {view === "strips" ? (
            opened.strips.map((strip) => (
              <Strip
                key={strip.ref}
                strip={strip}
                marks={state.value ? marksOf(state.value) : noMarks}
                choose={(block) => setThing({ kind: "block", block, strip: strip.ref })}
              />
            ))
          ) : (
            <Devices
              devices={opened.devices}
              state={state.value}
              choose={(device) => {
                const part = opened.parts.find(({ ref }) => ref === device.part);
                if (part) setThing({ kind: "part", part });
              }}
            />
          )}
        </>
      )}
      {thing && (
        <ThingSheet
          key={keyOf(thing)}
          thing={thing}
          panel={panel}
          session={session}
          opened={opened}
          state={state.value}
          close={() => setThing(null)}
          choose={setThing}
          dead={(ref) => trace(ref)}
        />
      )}
    </Screen>
  );
}

function Results({ things, choose }: { things: Thing[]; choose: (thing: Thing) => void }) {
  if (things.length === 0) return <p class="wait">{say("page.nothing-found")}</p>;
  return <ThingList things={things} choose={choose} />;
}

interface DeviceProps {
  devices: DeviceDef[];
  state: State | undefined;
  choose: (device: DeviceDef) => void;
}

function Devices({ devices, state, choose }: DeviceProps) {
  const states = new Map((state?.devices ?? []).map((s) => [s.ref, s]));
  return (
    <ul class="choices">
      {devices.map((device) => (
        <li key={device.ref}>
          <button type="button" class="choice" onClick={() => choose(device)}>
            <span>
              <b>{[device.tag, device.ref].filter(Boolean).join(" ")}</b>
              <small>{[device.label, device.kind_name].filter(Boolean).join(" · ")}</small>
            </span>
            <StateWord state={states.get(device.ref)} />
          </button>
        </li>
      ))}
    </ul>
  );
}

function StateWord({ state }: { state: DeviceState | undefined }) {
  if (!state) return null;
  return <span class={`grade grade-${state.grade}`}>{state.text}</span>;
}
