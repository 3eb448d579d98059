// The meter: a mode, a red point, a black point, and what the display shows.
// Where the probes are stands in the address, so that a reload keeps them.
import { useState } from "preact/hooks";
import type { Meter, MeterMode, MyMeter } from "../core/api.ts";
import { ConditionChoice, useCondition } from "../panel/condition.tsx";
import { marksOf, noMarks } from "../panel/marks.ts";
import { usePanel, type OpenPanel } from "../panel/sessions.ts";
import { useAnswer } from "../ui/answer.ts";
import { Cautions } from "../ui/cautions.tsx";
import { Icon } from "../ui/icon.tsx";
import { go, replace, type Route } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { Face } from "./face.tsx";
import { FaultsSheet } from "./faults.tsx";
import { ModeSheet } from "./mode.tsx";
import { useMyMeter } from "./mymeter.ts";
import { MyMeterSheet } from "./mymetersheet.tsx";
import { Points } from "./points.tsx";
import { ThingsAt } from "./thingsat.tsx";

type MeterRoute = Extract<Route, { at: "meter" }>;
type Sheet = "mode" | "faults" | "mine" | { point: string } | null;

export function MeterScreen({ route }: { route: MeterRoute }) {
  const open = usePanel(route.panel);
  const mine = useMyMeter();
  if (open.value && mine.meter) return <Ready route={route} open={open.value} mine={mine} meter={mine.meter} />;
  const error = open.error ?? mine.error;
  return (
    <Screen title={say("page.meter")} back={{ at: "panel", panel: route.panel, view: "strips" }}>
      {error ? <Trouble error={error} /> : <p class="wait">{say("page.reading-drawing")}</p>}
    </Screen>
  );
}

interface ReadyProps {
  route: MeterRoute;
  open: OpenPanel;
  mine: ReturnType<typeof useMyMeter>;
  meter: MyMeter;
}

function Ready({ route, open: { session, opened }, mine, meter }: ReadyProps) {
  const { panel, mode, red, black, fault } = route;
  const [at, setAt] = useCondition(panel, opened);
  const [sheet, setSheet] = useState<Sheet>(null);
  const [black_next, setBlackNext] = useState(red !== "" && black === "");
  const [load, setLoad] = useState(false);
  const faults = fault ? [fault] : [];
  const position = meter.modes.find((known) => known.mode === mode) ?? meter.modes[0];
  const complete = position !== undefined && red !== "" && (position.probes !== "points" || black !== "");
  const asked = { at, faults, mode, red, black, load: load && mode === "tester", my_meter: mine.own };
  const reading = useAnswer<Meter | null>(
    async (signal) => (complete ? session.meter(asked, signal) : null),
    [session, at, fault, mode, red, black, load, mine.own],
  );
  const state = useAnswer((signal) => session.state(at, faults, signal), [session, at, fault]);
  if (!position) return null;

  const move = (change: Partial<MeterRoute>): void => replace({ ...route, ...change });
  const touch = (point: string): void => {
    if (position.probes !== "points") return setSheet({ point });
    move(black_next ? { black: point } : { red: point });
    setBlackNext(!black_next);
  };
  const turn = (to: MeterMode): void => {
    setSheet(null);
    // What a wire and two points have in common is nothing: begin anew.
    move({ mode: to.mode, ...(to.probes !== position.probes && { red: "", black: "" }) });
    setBlackNext(false);
  };
  return (
    <Screen
      title={say("page.meter")}
      sub={opened.name}
      awake
      back={{ at: "panel", panel, view: "strips" }}
      foot={
        <div class="foot-row">
          <button type="button" class="second" onClick={() => setSheet("mode")}>
            <Icon name="dial" /> {say("page.mode")}
          </button>
          <button
            type="button"
            class="second"
            disabled={black === "" || position.probes !== "points"}
            onClick={() => move({ red: black, black: red })}
          >
            <Icon name="swap" /> {say("page.swap")}
          </button>
          <button type="button" class="second" disabled={!complete} onClick={() => setSheet("faults")}>
            <Icon name="list" /> {say("page.under-faults")}
          </button>
        </div>
      }
    >
      <div class="over">
        <Face
          position={position}
          reading={complete ? reading : null}
          red={red}
          black={black}
          opened={opened}
          next={black_next ? "black" : "red"}
          pick={(probe) => setBlackNext(probe === "black")}
          load={mode === "tester" ? { pressed: load, press: setLoad } : null}
        />
      </div>
      {reading.error !== undefined && <Trouble error={reading.error} />}
      {fault && <Under fault={fault} session={session} leave={() => move({ fault: "" })} />}
      <Cautions cautions={reading.value?.cautions.length ? reading.value.cautions : opened.cautions} />
      <ConditionChoice opened={opened} at={at} choose={setAt} />
      <Points
        opened={opened}
        marks={{ ...(state.value ? marksOf(state.value) : noMarks), red, black, volts: new Map() }}
        touch={touch}
      />
      <button type="button" class="second" onClick={() => setSheet("mine")}>
        <Icon name="keypad" /> {say("page.my-meter")}
      </button>
      {sheet === "mode" && (
        <ModeSheet modes={meter.modes} now={position.mode} choose={turn} close={() => setSheet(null)} />
      )}
      {sheet === "mine" && <MyMeterSheet meter={meter} change={mine.change} close={() => setSheet(null)} />}
      {sheet === "faults" && (
        <FaultsSheet
          session={session}
          opened={opened}
          asked={asked}
          choose={(one) => {
            setSheet(null);
            go({ ...route, fault: one });
          }}
          close={() => setSheet(null)}
        />
      )}
      {sheet !== null && typeof sheet === "object" && (
        <ThingsAt
          point={sheet.point}
          probes={position.probes}
          opened={opened}
          choose={(thing) => {
            setSheet(null);
            move({ red: thing, black: "" });
          }}
          close={() => setSheet(null)}
        />
      )}
    </Screen>
  );
}

/** Which fault the panel has while it is measured. */
function Under({ fault, session, leave }: { fault: string; session: OpenPanel["session"]; leave: () => void }) {
  const faults = useAnswer(() => session.faults(), [session]);
  const name = faults.value?.faults.find((one) => one.fault === fault)?.name ?? fault;
  return (
    <div class="box box-warn under">
      <Icon name="caution" />
      <span>{say("page.under-fault", { fault: name })}</span>
      <button type="button" class="second" onClick={leave}>
        {say("page.sound-again")}
      </button>
    </div>
  );
}
