// A copy of a panel that is here: how the two stand to each other, in what they
// differ, and what can be done.
import { useState } from "preact/hooks";
import type { Unpacked } from "../core/api.ts";
import { diff } from "../core/share.ts";
import type { SavedPanel } from "../store/schema.ts";
import { useAnswer } from "../ui/answer.ts";
import { Icon } from "../ui/icon.tsx";
import { address } from "../ui/route.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say, type Code } from "../words.ts";
import type { Copied } from "./copies.ts";
import { Differences } from "./differences.tsx";
import { Merging } from "./merging.tsx";

interface Props {
  copied: Copied;
  came: Unpacked;
  save: (how: Code, before: SavedPanel, drawing: { title: string; text: string }) => Promise<void>;
  beside: () => Promise<void>;
}

export function Changed({ copied, came, save, beside }: Props) {
  const { panel, how, base } = copied;
  const [merging, setMerging] = useState(false);
  const told = useAnswer(() => diff(panel.text, came.document), [panel.text, came.document]);
  const theirs = { title: came.name, text: came.document };
  if (merging) {
    return (
      <Merging
        copies={{ base, ours: panel.text, theirs: came.document }}
        keep={(merged) => save("page.done-merged", panel, { title: merged.title || panel.title, text: merged.text })}
        leave={() => setMerging(false)}
      />
    );
  }
  return (
    <section class="stack" data-copy={how}>
      <div class="box">
        <Icon name={how === "same" ? "works" : "list"} />
        <div>
          <p class="strong told">{say(`page.copy-${how}`, { title: panel.title })}</p>
          {how !== "same" && <p>{say(`page.copy-${how}-do`)}</p>}
        </div>
      </div>
      {how === "same" && (
        <a class="action" href={address({ at: "panel", panel: panel.id, view: "strips" })}>
          {say("page.open-panel")} <Icon name="next" />
        </a>
      )}
      {told.error !== undefined && <Trouble error={told.error} />}
      {told.value && how !== "same" && (
        <>
          <h2 class="heading">{say("page.differences")}</h2>
          <Differences list={told.value.differences} />
          <h2 class="heading">{say("page.what-to-do")}</h2>
          {how !== "newer" && (
            <button type="button" class={how === "older" ? "second" : "action"} onClick={() => setMerging(true)}>
              <Icon name="add" /> {say("page.merge")}
            </button>
          )}
          <button
            type="button"
            class={how === "newer" ? "action" : "second"}
            onClick={() => void save("page.done-taken", panel, theirs)}
          >
            <Icon name="held" /> {say("page.take-over")}
          </button>
          <button type="button" class="second" onClick={() => void beside()}>
            <Icon name="list" /> {say("page.keep-both")}
          </button>
        </>
      )}
    </section>
  );
}
