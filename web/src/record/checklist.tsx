// The list to go through before leaving, one tap a line. Stopping when it runs is
// how a second fault, a jumper or an open lever stays behind (common practice).
import { Check, Checks } from "../isolate/check.tsx";
import { lines, type Line } from "../store/closing.ts";
import { say } from "../words.ts";
import { namesOf } from "./cause.tsx";
import type { Fed } from "./fed.ts";
import type { ClosingJob } from "./usejob.ts";

interface Props {
  job: ClosingJob;
  dead: readonly string[];
  fed: Fed | null;
}

export function Checklist({ job: { account, append }, dead, fed }: Props) {
  const { checked, temporary } = account;
  return (
    <Checks title={say("page.checks-before-leaving")}>
      {lines.map((line) => {
        const text = checked.get(line) ?? textOf(line, dead, fed);
        return (
          <Check
            key={line}
            done={checked.has(line)}
            tick={(done) => void append({ kind: "check", line, text, done })}
          >
            <b>{text}</b>
            {line === "links" && temporary.length > 0 && (
              <small class="not-live">{say("page.temporary-left", { n: temporary.length })}</small>
            )}
          </Check>
        );
      })}
    </Checks>
  );
}

/** With the names of the things, where they are known. */
function textOf(line: Line, dead: readonly string[], fed: Fed | null): string {
  if (line === "function" && dead.length > 0) return say("page.leave-function-of", { things: dead.join(", ") });
  if (line === "same-fuse" && fed) {
    const others = namesOf({ ...fed, things: fed.things.filter(({ ref }) => !dead.includes(ref)) });
    return others.length > 0
      ? say("page.leave-same-fuse-of", { fuse: fed.fuse, things: others.join(", ") })
      : say("page.leave-same-fuse-none", { fuse: fed.fuse });
  }
  return say(`page.leave-${line}`);
}
