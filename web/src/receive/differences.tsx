// In what a copy differs from what is here, grouped by what it means.
import { useState } from "preact/hooks";
import type { Difference } from "../core/api.ts";
import { say, type Code } from "../words.ts";

/** An order of the same things is a change of the list they stand in. */
const groups: readonly { heading: Code; what: readonly string[] }[] = [
  { heading: "page.diff-new", what: ["added"] },
  { heading: "page.diff-changed", what: ["changed", "order"] },
  { heading: "page.diff-gone", what: ["removed"] },
];

/** More than these are shown when asked for. */
const AT_ONCE = 30;

export function Differences({ list }: { list: readonly Difference[] }) {
  return (
    <>
      {groups.map(({ heading, what }) => {
        const these = list.filter((one) => what.includes(one.what));
        return these.length > 0 && <Group key={heading} heading={heading} what={what[0] ?? ""} list={these} />;
      })}
    </>
  );
}

function Group({ heading, what, list }: { heading: Code; what: string; list: readonly Difference[] }) {
  const [all, setAll] = useState(false);
  return (
    <section class="stack" data-diff={what}>
      <h3>{say(heading, { n: list.length })}</h3>
      <ul class="differences">
        {(all ? list : list.slice(0, AT_ONCE)).map(({ path, what: how, text }) => (
          <li key={`${path} ${how}`}>{text}</li>
        ))}
      </ul>
      {!all && list.length > AT_ONCE && (
        <button type="button" class="second" onClick={() => setAll(true)}>
          {say("page.diff-all", { n: list.length })}
        </button>
      )}
    </section>
  );
}
