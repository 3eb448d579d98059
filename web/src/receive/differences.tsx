// In what a copy differs from what is here, grouped by what it means.
import type { Difference } from "../core/api.ts";
import { say, type Code } from "../words.ts";

/** An order of the same things is a change of the list they stand in. */
const groups: readonly { heading: Code; what: readonly string[] }[] = [
  { heading: "page.diff-new", what: ["added"] },
  { heading: "page.diff-changed", what: ["changed", "order"] },
  { heading: "page.diff-gone", what: ["removed"] },
];

export function Differences({ list }: { list: readonly Difference[] }) {
  return (
    <>
      {groups.map(({ heading, what }) => {
        const these = list.filter((one) => what.includes(one.what));
        if (these.length === 0) return null;
        return (
          <section key={heading} class="stack" data-diff={what[0]}>
            <h3>{say(heading, { n: these.length })}</h3>
            <ul class="differences">
              {these.map(({ path, what: how, text }) => (
                <li key={`${path} ${how}`}>{text}</li>
              ))}
            </ul>
          </section>
        );
      })}
    </>
  );
}
