// A panel that came in: new here, the same as one that is here, or a changed
// copy of it. Whatever is chosen, what is here stays among its earlier drawings.
import { useState } from "preact/hooks";
import type { Edited } from "../core/api.ts";
import { edit } from "../core/ask.ts";
import { useKept } from "../keep/kept.ts";
import { Problems } from "../panel/problems.tsx";
import { dropArrival, putArrival } from "../store/arrivals.ts";
import { addCopy, savePanel } from "../store/panels.ts";
import type { SavedPanel } from "../store/schema.ts";
import { putAway } from "../store/trash.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { replace } from "../ui/route.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say, type Code } from "../words.ts";
import { Changed } from "./changed.tsx";
import { Choose } from "./choose.tsx";
import { copiesOf, copyOf } from "./copies.ts";
import { Frame, type Deciding } from "./screen.tsx";

export function PanelArrived(props: Deciding) {
  const { arrival, came, settle } = props;
  const [asked, setAsked] = useState(arrival.panel);
  const [error, setError] = useState<unknown>();
  const read = useAnswer(() => edit({ name: arrival.name, text: arrival.text }, []), [arrival.text]);
  // Read again whenever a drawing changes here, in this tab or in another.
  const copies = useKept(
    async () => (asked ? [await copyOf(came, asked)].filter((one) => one !== null) : copiesOf(came)),
    [came, asked],
    ({ kind }) => kind === "panel" || kind === "all",
  );

  const theirs = { title: came.name, text: arrival.text, edition: came.edition, editions: came.editions };
  const decide = async (how: Code, act: () => Promise<{ panel: SavedPanel; undo: () => Promise<void> }>): Promise<void> => {
    setError(undefined);
    try {
      const { panel, undo } = await act();
      const back = async (): Promise<void> => {
        await undo();
        await putArrival(arrival);
        settle(null);
      };
      const beside = panel.split?.why === "tab";
      settle({ came: arrival.title, how, panel: panel.id, title: panel.title, beside, undo: back });
      await dropArrival(arrival.id);
    } catch (why) {
      setError(why);
    }
  };
  const keepBeside = (of: string): Promise<void> =>
    decide("page.done-kept", async () => {
      const panel = await addCopy(theirs, of);
      return { panel, undo: () => putAway("panel", panel.id, panel.title) };
    });
  // Nothing to take back: it goes like any other panel.
  const keep = async (): Promise<void> => {
    setError(undefined);
    try {
      const { id } = await addCopy(theirs);
      await dropArrival(arrival.id);
      replace({ at: "panel", panel: id, view: "strips" });
    } catch (why) {
      setError(why);
    }
  };
  const save = (how: Code, before: SavedPanel, drawing: { title: string; text: string }): Promise<void> =>
    decide(how, async () => {
      const panel = await savePanel(before.id, before.version, drawing, theirs);
      // Saved beside it, since another tab was faster: then that one goes.
      const undo = async (): Promise<void> => {
        if (panel.id !== before.id) await putAway("panel", panel.id, panel.title);
        else {
          const { title, text, drawn } = before;
          await savePanel(panel.id, panel.version, { title, text, ...(drawn && { drawn }) });
        }
      };
      return { panel, undo };
    });

  // As the core opens a panel: without one error.
  const usable = read.value?.opened != null && read.value.errors === 0;
  const first = copies.value?.[0];
  const others = copies.value?.slice(1) ?? [];
  const troubles = (
    <>
      {read.error !== undefined && <Trouble error={read.error} />}
      {copies.error !== undefined && <Trouble error={copies.error} />}
      {error !== undefined && <Trouble error={error} />}
    </>
  );
  if (usable && first) {
    return (
      <Changed
        key={`${first.panel.id} ${first.panel.version}`}
        deciding={props}
        copied={first}
        save={save}
        beside={() => keepBeside(first.panel.id)}
        trouble={troubles}
      >
        <Problems problems={read.value?.problems ?? []} />
        <Choose now={first.panel.id} others={others} choose={setAsked} />
      </Changed>
    );
  }
  return (
    <Frame
      {...props}
      foot={
        usable &&
        copies.value && (
          <button type="button" class="action" onClick={() => void keep()}>
            <Icon name="held" /> {say("page.received-keep")}
          </button>
        )
      }
    >
      <Contents read={read.value} />
      {troubles}
      {(read.busy || copies.busy) && !copies.value && <p class="wait">{say("page.comparing")}</p>}
      {usable && copies.value && (
        <>
          <p>{say("page.received-new")}</p>
          <Choose now={undefined} others={[]} choose={setAsked} />
        </>
      )}
    </Frame>
  );
}

/** What is in it, counted, and what the core finds wrong with it. */
function Contents({ read }: { read: Edited | undefined }) {
  if (!read) return null;
  const { opened, problems, errors } = read;
  if (!opened || errors > 0) {
    return (
      <div class="box box-warn" role="alert">
        <Icon name="caution" />
        <div>
          <p class="strong">{say("page.received-unusable")}</p>
          <p>{say("page.received-unusable-do")}</p>
          <ul class="places">
            {problems.map(({ line, col, path, text, hint }) => (
              <li key={`${line}:${col} ${text}`}>
                {[line > 0 ? say("page.place", { line, col }) : path, text, hint].filter(Boolean).join(" – ")}
              </li>
            ))}
          </ul>
        </div>
      </div>
    );
  }
  const { strips, parts, wires, conditions } = opened;
  const blocks = strips.reduce((sum, strip) => sum + strip.blocks.length, 0);
  return (
    <section class="stack">
      {opened.about && <p class="told">{opened.about}</p>}
      <p>
        {say("page.contains", {
          strips: strips.length,
          blocks,
          parts: parts.length,
          wires: wires.length,
          conditions: conditions.length,
        })}
      </p>
      <Problems problems={problems} />
    </section>
  );
}
