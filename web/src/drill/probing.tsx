// The apprentice's meter: two touches, a mode, and one tap that says why before
// the figure is shown.
import { useState } from "preact/hooks";
import type { DrillAct, Opened } from "../core/api.ts";
import { mymeter } from "../core/ask.ts";
import { ModeSheet } from "../meter/mode.tsx";
import { Points } from "../meter/points.tsx";
import { ThingsAt } from "../meter/thingsat.tsx";
import { noMarks } from "../panel/marks.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import type { Playing } from "./attempt.tsx";

export function Probing({ panel, playing: { drill, state, act, busy } }: { panel: Opened; playing: Playing }) {
  const modes = useAnswer((signal) => mymeter({}, signal), []);
  const [mode, setMode] = useState("vdc");
  const [red, setRed] = useState("");
  const [black, setBlack] = useState("");
  const [choosing, setChoosing] = useState(false);
  const [point, setPoint] = useState("");
  const position = modes.value?.modes.find((one) => one.mode === mode);
  if (modes.error !== undefined) return <Trouble error={modes.error} />;
  if (!position) return null;
  const points = position.probes === "points";
  const ready = red !== "" && (!points || black !== "");
  const touch = (at: string): void => {
    if (!points) setPoint(at);
    else if (red === "" || black !== "") {
      setRed(at);
      setBlack("");
    } else setBlack(at);
  };
  const take = (kind: "read" | "prove-dead" | "bypass", why?: string): void => {
    const doing: DrillAct = { kind, red, black, ...(kind === "read" && { mode }), ...(why && { why }) };
    void act(doing);
  };
  const offered = new Set(state.offers.map(({ kind }) => kind));
  return (
    <>
      <div class="over">
        <section class="face" aria-label={say("page.meter")}>
          <div class="face-display">
            <button type="button" class="dial-mode" onClick={() => setChoosing(true)}>
              {position.name}
            </button>
            <span class="pair-short">
              {points ? (
                <>
                  <span class="probe-dot probe-dot-red">{say("page.red-short")}</span> <b>{red || "–"}</b>
                  <span class="probe-dot probe-dot-black">{say("page.black-short")}</span> <b>{black || "–"}</b>
                </>
              ) : (
                <b>{red || "–"}</b>
              )}
            </span>
          </div>
          {!ready && (
            <p class="face-at">
              {say(
                points
                  ? red === ""
                    ? "page.touch-red"
                    : "page.touch-black"
                  : position.probes === "wire"
                    ? "page.pick-wire"
                    : "page.pick-break",
              )}
            </p>
          )}
          {ready && (
            <>
              <h2 class="heading">{say("page.why-this-reading")}</h2>
              <div class="whys">
                {drill.whys.map(({ code, text }) => (
                  <button key={code} type="button" class="second" disabled={busy} onClick={() => take("read", code)}>
                    {text}
                  </button>
                ))}
              </div>
              {points && (offered.has("prove-dead") || offered.has("bypass")) && (
                <div class="whys">
                  {offered.has("prove-dead") && (
                    <button type="button" class="second" disabled={busy} onClick={() => take("prove-dead")}>
                      <Icon name="lock" /> {say("page.prove-dead-here")}
                    </button>
                  )}
                  {offered.has("bypass") && (
                    <button type="button" class="second" disabled={busy} onClick={() => take("bypass")}>
                      <Icon name="jumper" /> {say("page.jump-out")}
                    </button>
                  )}
                </div>
              )}
            </>
          )}
        </section>
      </div>
      <Points opened={panel} marks={{ ...noMarks, red, black }} touch={touch} />
      {choosing && modes.value && (
        <ModeSheet
          modes={modes.value.modes}
          now={mode}
          choose={(to) => {
            setChoosing(false);
            if (to.probes !== position.probes) {
              setRed("");
              setBlack("");
            }
            setMode(to.mode);
          }}
          close={() => setChoosing(false)}
        />
      )}
      {point !== "" && (
        <ThingsAt
          point={point}
          probes={position.probes}
          opened={panel}
          choose={(thing) => {
            setPoint("");
            setRed(thing);
            setBlack("");
          }}
          close={() => setPoint("")}
        />
      )}
    </>
  );
}
