// Handing a panel, a drill or a job over: its codes for the phone beside this
// one, and at the thumb the ways to send it further.
import { useState } from "preact/hooks";
import { useAnswer } from "../ui/answer.ts";
import { sizeOf } from "../keep/sizes.ts";
import { Icon } from "../ui/icon.tsx";
import type { Route } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { Codes } from "./codes.tsx";
import { Doors, WhatCame, type Done } from "./doors.tsx";
import { handOver, sourceFor, type Given, type Handed, type HandOver } from "./handover.ts";

export function ShareScreen({ kind, id }: { kind: Given; id: string }) {
  const source = useAnswer(() => sourceFor(kind, id), [kind, id]);
  const back = backOf(kind, id);
  if (source.value) return <ShareOf source={source.value} back={back} />;
  return (
    <Screen title={say("page.hand-over")} back={back}>
      {source.error !== undefined ? <Trouble error={source.error} /> : <p class="wait">{say("page.packing")}</p>}
    </Screen>
  );
}

function backOf(kind: Given, id: string): Route {
  switch (kind) {
    case "panel":
      return { at: "panel", panel: id, view: "records" };
    case "drill":
      return { at: "drill", attempt: id, view: "call" };
    case "job":
      return { at: "job", job: id, view: "next" };
    case "paper":
      return { at: "paper", paper: id };
  }
}

interface Props {
  source: Handed;
  back: Route;
  leave?: () => void;
}

/** Also of what is not kept on this phone, as a drill that has just been made. */
export function ShareOf({ source, back, leave }: Props) {
  const [coarse, setCoarse] = useState(false);
  const [done, setDone] = useState<Done | null>(null);
  const over = useAnswer((signal) => handOver(source, coarse, signal), [source, coarse]);
  return (
    <Screen
      title={say("page.hand-over")}
      sub={over.value?.name}
      awake
      back={back}
      {...(leave && { leave })}
      foot={over.value && <Doors over={over.value} done={setDone} />}
    >
      {over.error !== undefined && <Trouble error={over.error} />}
      {!over.value && over.busy && <p class="wait">{say("page.packing")}</p>}
      <WhatCame done={done} />
      {over.value && <Shown over={over.value} coarse={coarse} setCoarse={setCoarse} />}
    </Screen>
  );
}

interface ShownProps {
  over: HandOver;
  coarse: boolean;
  setCoarse: (coarse: boolean) => void;
}

function Shown({ over, coarse, setCoarse }: ShownProps) {
  return (
    <>
      <p>{say(`page.goes-${over.kind}`)}</p>
      {over.parts.length > 0 ? (
        <>
          <Codes parts={over.parts} />
          <p class="note">{say("page.codes-how")}</p>
          <button type="button" class="second" aria-pressed={coarse} onClick={() => setCoarse(!coarse)}>
            <Icon name={coarse ? "works" : "eye"} /> {say("page.codes-coarse")}
          </button>
        </>
      ) : (
        <p class="box box-warn">
          <Icon name="caution" />
          <span>{say("page.no-codes")}</span>
        </p>
      )}
      <p class="note">
        {over.link === ""
          ? say("page.link-too-long", { n: over.linkLength.toLocaleString() })
          : say("page.link-about")}
      </p>
      <p class="note">{say("page.packed-size", { size: sizeOf(over.bytes) })}</p>
    </>
  );
}
