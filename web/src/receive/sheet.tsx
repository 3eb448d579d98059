// The record of a job to read: first what is still in place.
import type { Record as JobRecord } from "../core/api.ts";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";

export function Sheet({ record: { content, open } }: { record: JobRecord }) {
  return (
    <section class="stack">
      {open.length > 0 && (
        <div class="box box-warn">
          <Icon name="caution" />
          <div>
            <p class="strong">{say("page.still-in-place")}</p>
            <ul>
              {open.map(({ text }) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          </div>
        </div>
      )}
      <pre class="paper" data-paper-text>
        {content}
      </pre>
    </section>
  );
}
