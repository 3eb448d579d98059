// What went wrong, in a sentence, with what to do about it.
import { Refused } from "../core/ask.ts";
import { CoreError } from "../core/client.ts";
import { say } from "../words.ts";
import { Icon } from "./icon.tsx";

export function Trouble({ error }: { error: unknown }) {
  const { text, hint, places } = explain(error);
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

function explain(error: unknown): { text: string; hint: string; places: string[] } {
  if (error instanceof Refused) {
    const { code, hint = "", problems } = error.refusal;
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
