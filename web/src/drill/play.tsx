// Taking a drill: the call, the panel to look at and work on, the meter; and a
// bar at the bottom for what the thumb does next.
import { useState } from "preact/hooks";
import type { Opened } from "../core/api.ts";
import { noMarks } from "../panel/marks.ts";
import { search, type Thing } from "../panel/search.ts";
import { SearchField } from "../panel/searchfield.tsx";
import { Strip } from "../panel/strip.tsx";
import { ThingList } from "../panel/thinglist.tsx";
import { Icon, type IconName } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { say, type Code } from "../words.ts";
import type { Playing } from "./attempt.tsx";
import { Call } from "./call.tsx";
import { CallItSheet } from "./callit.tsx";
import { Happened, LogSheet } from "./log.tsx";
import { Probing } from "./probing.tsx";
import { Summary } from "./summary.tsx";
import { WorkSheet } from "./work.tsx";

export type View = "call" | "panel" | "meter";

const views: readonly { view: View; icon: IconName; word: Code }[] = [
  { view: "call", icon: "eye", word: "page.the-call" },
  { view: "panel", icon: "strip", word: "page.the-panel" },
  { view: "meter", icon: "dial", word: "page.meter" },
];

export function PlayScreen({ playing, view }: { playing: Playing; view: View }) {
  const { saved, drill, state } = playing;
  const [sheet, setSheet] = useState<"log" | "call" | null>(null);
  const [thing, setThing] = useState<Thing | null>(null);
  if (!drill.panel) return null;
  return (
    <Screen
      title={drill.name}
      sub={say("page.minutes-so-far", { minutes: state.minutes.toFixed(1) })}
      back={{ at: "drills" }}
      steps={state.log.length}
      foot={
        <div class="foot-row">
          <button type="button" class="second" onClick={() => setSheet("log")}>
            <Icon name="steps" /> {say("page.done-n", { n: state.log.length })}
          </button>
          <button type="button" class="action" onClick={() => setSheet("call")}>
            <Icon name="works" /> {say("page.call-it")}
          </button>
        </div>
      }
    >
      <nav class="tabs tabs-three" aria-label={say("page.views")}>
        {views.map((one) => (
          <a
            key={one.view}
            href={address({ at: "drill", attempt: saved.id, view: one.view })}
            aria-current={view === one.view ? "page" : undefined}
          >
            <Icon name={one.icon} /> {say(one.word)}
          </a>
        ))}
      </nav>
      <Happened playing={playing} />
      {view === "call" && <Call playing={playing} />}
      {view === "panel" && <PanelView panel={drill.panel} playing={playing} choose={setThing} />}
      {view === "meter" && <Probing panel={drill.panel} playing={playing} />}
      {thing && <WorkSheet thing={thing} panel={drill.panel} playing={playing} choose={setThing} close={() => setThing(null)} />}
      {sheet === "log" && <LogSheet playing={playing} close={() => setSheet(null)} />}
      {sheet === "call" && <CallItSheet playing={playing} panel={drill.panel} close={() => setSheet(null)} />}
    </Screen>
  );
}

function PanelView({ panel, playing, choose }: { panel: Opened; playing: Playing; choose: (thing: Thing) => void }) {
  const [typed, setTyped] = useState("");
  const found = typed.trim() === "" ? null : search(panel, typed);
  return (
    <>
      <SearchField name={say("page.search-hint")} typed={typed} type={setTyped} />
      <Summary playing={playing} />
      {found?.length === 0 && <p class="wait">{say("page.nothing-found")}</p>}
      <ThingList things={found ?? []} choose={choose} />
      {!found &&
        panel.strips.map((strip) => (
          <Strip
            key={strip.ref}
            strip={strip}
            marks={noMarks}
            choose={(block) => choose({ kind: "block", block, strip: strip.ref })}
          />
        ))}
      {!found && (
        <>
          <h2 class="heading">{say("page.devices")}</h2>
          <ThingList things={panel.parts.map((part): Thing => ({ kind: "part", part }))} choose={choose} />
        </>
      )}
    </>
  );
}
