// What went wrong, in a sentence, with what to do about it.
import { useEffect } from "preact/hooks";
import { Refused } from "../core/ask.ts";
import { CoreError } from "../core/client.ts";
import { pulse } from "../manners/pulse.ts";
import { BadDocument } from "../store/elements.ts";
import { NotTaken } from "../receive/incoming.ts";
import { NotABackup } from "../store/restore.ts";
import { LeftOut } from "../store/write.ts";
import { say, type Code } from "../words.ts";
import { Icon } from "./icon.tsx";

export function Trouble({ error }: { error: unknown }) {
  const { text, hint, places } = explain(error);
  useEffect(() => pulse("look"), [error]);
  return (
    <div class="box box-warn" role="alert">
      <Icon name="caution" />
      <div>
        <p class="strong">{text}</p>
        {hint && <p>{hint}</p>}
        {places.length > 0 && (
          <ul class="places">
            {places.map((place) => (
              <li key={place}>{place}</li>
            ))}
          </ul>
        )}
      </div>
    </div>
  );
}

/** Errors of files and storage that have a sentence of their own. */
function explainKept(error: unknown): Code | null {
  if (error instanceof NotABackup) return error.newer ? "page.backup-newer" : "page.no-backup";
  if (error instanceof NotTaken) return error.why === "backup" ? "page.is-backup" : "page.too-large";
  if (error instanceof BadDocument) return "page.bad-backup";
  if (error instanceof LeftOut) return "page.left-out";
  // The database is of a later version: another tab has moved on.
  if (error instanceof DOMException && error.name === "VersionError") return "page.newer-tab";
  return null;
}

/** More than these are no help. */
const CHOICES = 12;

function explain(error: unknown): { text: string; hint: string; places: string[] } {
  const kept = explainKept(error);
  if (kept) return { text: say(kept), hint: say(`${kept}-hint` as Code), places: [] };
  if (error instanceof Refused) {
    const { code, problems, choices = [] } = error.refusal;
    const accepted = choices.slice(0, CHOICES).join(", ");
    const hint = [error.refusal.hint, accepted && say("page.one-of", { choices: accepted })].filter(Boolean).join(". ");
    // The border of the worker has codes only; the core has sentences.
    const text = error.refusal.text || say("page.core-code", { code });
    const places = (problems ?? []).map((p) =>
      [p.line > 0 ? say("page.place", { line: p.line, col: p.col }) : p.path, p.text, p.hint]
        .filter(Boolean)
        .join(" – "),
    );
    return { text, hint, places };
  }
  if (error instanceof CoreError && error.code === "version") {
    return { text: say("page.core-version"), hint: say("page.core-version-hint"), places: [] };
  }
  if (error instanceof CoreError) {
    return { text: say("page.core-broken"), hint: say("page.core-broken-hint", { why: error.message }), places: [] };
  }
  return { text: say("page.trouble"), hint: error instanceof Error ? error.message : String(error), places: [] };
}
