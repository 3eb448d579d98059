// A copy of a panel that is here: how the two stand to each other, in what they
// differ, and what can be done.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
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
import { Frame, type Deciding } from "./screen.tsx";

interface Props {
  deciding: Deciding;
  copied: Copied;
  save: (how: Code, before: SavedPanel, drawing: { title: string; text: string }) => Promise<void>;
  beside: () => Promise<void>;
  /** What went wrong, wherever one is. */
  trouble: ComponentChildren;
  children: ComponentChildren;
}

export function Changed({ deciding, copied, save, beside, trouble, children }: Props) {
  const { panel, how, base } = copied;
  const { came } = deciding;
  const [merging, setMerging] = useState(false);
  const told = useAnswer(() => diff(panel.text, came.document), [panel.text, came.document]);
  if (merging) {
    return (
      <Merging
        title={panel.title}
        copies={{ base, ours: panel.text, theirs: came.document }}
        keep={(merged) => save("page.done-merged", panel, { title: merged.title || panel.title, text: merged.text })}
        leave={() => setMerging(false)}
        trouble={trouble}
      />
    );
  }
  const takeOver = (): Promise<void> => save("page.done-taken", panel, { title: came.name, text: came.document });
  const goesOn = how === "parted" || how === "unknown";
  return (
    <Frame
      {...deciding}
      foot={
        how === "same" ? (
          <a class="action" href={address({ at: "panel", panel: panel.id, view: "strips" })}>
            {say("page.open-panel")} <Icon name="next" />
          </a>
        ) : (
          <div class="foot-row">
            {goesOn && (
              <button type="button" class="action" onClick={() => setMerging(true)}>
                {say("page.merge")}
              </button>
            )}
            <button type="button" class={how === "newer" ? "action" : "second"} onClick={() => void takeOver()}>
              {say("page.take-over")}
            </button>
            <button type="button" class="second" onClick={() => void beside()}>
              {say("page.keep-both")}
            </button>
          </div>
        )
      }
    >
      <section class="stack" data-copy={how}>
        <div class="box">
          <Icon name={how === "same" ? "works" : "list"} />
          <div>
            <p class="strong told">{say(`page.copy-${how}`, { title: panel.title })}</p>
            {how !== "same" && <p>{say(`page.copy-${how}-do`)}</p>}
          </div>
        </div>
        {told.error !== undefined && <Trouble error={told.error} />}
        {told.value && how !== "same" && (
          <>
            <h2 class="heading">{say("page.differences")}</h2>
            <Differences list={told.value.differences} />
          </>
        )}
      </section>
      {trouble}
      {children}
    </Frame>
  );
}
