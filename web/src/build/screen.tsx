// The screen on which a panel is built, in the plant: what is drawn so far, and
// a bar for the thumb with what comes next.
import { useState } from "preact/hooks";
import type { Opened } from "../core/api.ts";
import { terminalsOf } from "../keep/terminals.ts";
import { wiresAt } from "../panel/ends.ts";
import { Facts } from "../panel/facts.tsx";
import { noMarks } from "../panel/marks.ts";
import { Problems } from "../panel/problems.tsx";
import { keyOf, type Thing } from "../panel/search.ts";
import { Strip } from "../panel/strip.tsx";
import { Dialog } from "../ui/dialog.tsx";
import { Icon, type IconName } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say, type Code } from "../words.ts";
import { FeedSheetBody, PartNewBody, StripSheetBody } from "./begin.tsx";
import { BlockSheetBody } from "./block.tsx";
import { ConditionsScreen } from "./conditions.tsx";
import { NameSheetBody } from "./name.tsx";
import { PartSheetBody } from "./part.tsx";
import { useDrawing, type Act, type InHand } from "./use.ts";
import { WireSheetBody } from "./wire.tsx";
import { Wiring } from "./wiring.tsx";

type New = "strip" | "feed" | "part" | "name";
type View = "strips" | "parts" | "wires";

export function BuildScreen({ panel }: { panel: string }) {
  const hand = useDrawing(panel);
  const opened = hand.drawing?.edited.opened;
  if (!hand.drawing || !opened) {
    return (
      <Screen title={say("page.build")} back={{ at: "panel", panel, view: "strips" }}>
        {hand.error !== undefined ? <Trouble error={hand.error} /> : <p class="wait">{say("page.reading-drawing")}</p>}
      </Screen>
    );
  }
  return <Building panel={panel} hand={hand} opened={opened} />;
}

function Building({ panel, hand, opened }: { panel: string; hand: InHand; opened: Opened }) {
  const [adding, setAdding] = useState<New | null>(null);
  const [chosen, setChosen] = useState<Thing | null>(null);
  const [wiring, setWiring] = useState<string | null>(null);
  const [plant, setPlant] = useState(false);
  const [view, setView] = useState<View>("strips");
  const { drawing, made, error, act, undo, forget } = hand;
  const open = (what: New | null): void => {
    forget();
    setAdding(what);
  };
  const choose = (thing: Thing | null): void => {
    forget();
    setChosen(thing);
  };
  const wire = (from: string): void => {
    choose(null);
    setWiring(from);
  };
  /** Carries a step out, and closes what it was said in. */
  const done: Act = async (...step) => {
    const taken = await act(...step);
    if (taken) {
      setAdding(null);
      setChosen(null);
    }
    return taken;
  };
  if (wiring !== null) {
    return <Wiring panel={panel} opened={opened} hand={hand} from={wiring} done={() => setWiring(null)} />;
  }
  if (plant) {
    return <ConditionsScreen panel={panel} opened={opened} hand={hand} done={() => setPlant(false)} />;
  }
  const empty = opened.strips.length + opened.parts.length === 0;
  return (
    <Screen
      title={opened.name}
      touch={{ word: say("page.build-rename"), tap: () => open("name") }}
      sub={say("page.build")}
      back={{ at: "panel", panel, view: "strips" }}
      steps={drawing?.drawn.steps.length ?? 0}
      foot={
        <div class="bar">
          <BarButton icon="strip" name="page.build-strip" tap={() => open("strip")} />
          <BarButton icon="bolt" name="page.build-feed" tap={() => open("feed")} />
          <BarButton icon="part" name="page.build-part" tap={() => open("part")} />
          <BarButton icon="wire" name="page.build-wire" tap={() => wire("")} />
          <BarButton icon="undo" name="page.undo" off={drawing?.drawn.steps.length === 0} tap={undo} />
        </div>
      }
    >
      <p class="build-made" role="status">
        {made || say(empty ? "page.build-empty" : drawing?.saved ? "page.build-tap" : "page.build-copies")}
      </p>
      {error !== undefined && !adding && !chosen && <Trouble error={error} />}
      <Problems bare problems={drawing?.edited.problems ?? []} />
      {!empty && (
        <button
          type="button"
          class="second"
          onClick={() => {
            forget();
            setPlant(true);
          }}
        >
          <Icon name="swap" /> {say("page.build-conditions")}
        </button>
      )}
      {!empty && (
        <div class="tabs tabs-three" role="group" aria-label={say("page.views")}>
          {(["strips", "parts", "wires"] as const).map((one) => (
            <button key={one} type="button" class="tab" aria-pressed={view === one} onClick={() => setView(one)}>
              {say(`page.build-view-${one}`, { n: countOf(opened, one) })}
            </button>
          ))}
        </div>
      )}
      {view === "strips" &&
        opened.strips.map((strip) => (
          <Strip
            key={strip.ref}
            strip={strip}
            marks={noMarks}
            choose={(block) => choose({ kind: "block", block, strip: strip.ref })}
          />
        ))}
      {view !== "strips" && <Things opened={opened} view={view} choose={choose} />}
      {!empty && (
        <a class="second" href={address({ at: "share", kind: "panel", id: panel })}>
          <Icon name="send" /> {say("page.hand-panel-over")}
        </a>
      )}
      {adding && (
        <Dialog title={say(`page.build-new-${adding}`)} close={() => open(null)}>
          {error !== undefined && <Trouble error={error} />}
          {adding === "strip" && <StripSheetBody strips={opened.strips} act={done} />}
          {adding === "feed" && <FeedSheetBody act={done} />}
          {adding === "part" && <PartNewBody act={done} />}
          {adding === "name" && <NameSheetBody opened={opened} act={done} />}
        </Dialog>
      )}
      {chosen && drawing && (
        <Dialog key={keyOf(chosen)} title={titleOf(chosen)} sub={aboutOf(chosen)} close={() => choose(null)}>
          {error !== undefined && <Trouble error={error} />}
          {chosen.kind === "block" && (
            <BlockSheetBody
              strip={opened.strips.find(({ ref }) => ref === chosen.strip) ?? { ref: chosen.strip, label: "", blocks: [] }}
              block={chosen.block}
              act={done}
              wire={wire}
            >
              <Lands thing={chosen} opened={opened} choose={choose} />
            </BlockSheetBody>
          )}
          {chosen.kind === "part" && (
            <PartSheetBody part={chosen.part} drawing={drawing} act={done} wire={wire}>
              <Lands thing={chosen} opened={opened} choose={choose} />
            </PartSheetBody>
          )}
          {chosen.kind === "wire" && <WireSheetBody wire={chosen.wire} opened={opened} act={done} />}
        </Dialog>
      )}
    </Screen>
  );
}

/** The wires that land on a thing, once there are some. */
function Lands({ thing, opened, choose }: { thing: Thing; opened: Opened; choose: (thing: Thing) => void }) {
  if (terminalsOf(thing).every((point) => wiresAt(opened, point).length === 0)) return null;
  return (
    <>
      <h3>{say("page.build-lands-here")}</h3>
      <Facts thing={thing} opened={opened} volts={new Map()} choose={choose} />
    </>
  );
}

function BarButton({ icon, name, tap, off = false }: { icon: IconName; name: Code; tap: () => void; off?: boolean }) {
  return (
    <button type="button" class="bar-button" disabled={off} onClick={tap}>
      <Icon name={icon} />
      {say(name)}
    </button>
  );
}

function countOf({ strips, parts, wires }: Opened, view: View): number {
  return { strips, parts, wires }[view].length;
}

function Things({ opened, view, choose }: { opened: Opened; view: "parts" | "wires"; choose: (thing: Thing) => void }) {
  const things: Thing[] =
    view === "parts"
      ? opened.parts.map((part) => ({ kind: "part", part }))
      : opened.wires.map((wire) => ({ kind: "wire", wire }));
  return (
    <ul class="choices">
      {things.map((thing) => (
        <li key={keyOf(thing)}>
          <button type="button" class="choice" onClick={() => choose(thing)}>
            <span>
              <b>{titleOf(thing)}</b>
              <small>{aboutOf(thing)}</small>
            </span>
            <Icon name="next" />
          </button>
        </li>
      ))}
    </ul>
  );
}

function titleOf(thing: Thing): string {
  return thing.kind === "part" ? [thing.part.tag, thing.part.ref].filter(Boolean).join(" ") : keyOf(thing);
}

function aboutOf(thing: Thing): string {
  switch (thing.kind) {
    case "block":
      return [thing.block.label, thing.block.fuse].filter(Boolean).join(" · ");
    case "part":
      return [thing.part.label, thing.part.kind_name].filter(Boolean).join(" · ");
    case "wire":
      return say("page.wire-summary", { from: thing.wire.from, to: thing.wire.to });
  }
}
