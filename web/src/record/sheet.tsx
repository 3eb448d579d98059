// A record as its lines, on the screen one below the other, on paper in columns.
// Whatever a person wrote is text here and nothing else.
import type { Line, Record as Answer } from "../core/api.ts";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import type { Paper } from "./ask.ts";

export function RecordSheet({ record, paper }: { record: Answer; paper: Paper }) {
  return (
    <article class={`record paper-${paper}`} data-record>
      <h2 class="record-title">{record.title}</h2>
      {record.sections.map(({ code, title, lines }) => (
        <section key={code} class="record-part" data-part={code}>
          <h3>{title}</h3>
          <ul>
            {lines.map((line, index) => (
              <li key={index} class={line.open ? "record-line record-open" : "record-line"}>
                <Row line={line} />
              </li>
            ))}
          </ul>
        </section>
      ))}
      <p class="record-caution">{record.caution}</p>
      <p class="record-sign">{record.signature}</p>
    </article>
  );
}

function Row({ line: { when, what, shown, expected, note, open } }: { line: Line }) {
  return (
    <>
      {open && <Icon name="caution" />}
      {when && <small class="record-when">{when}</small>}
      <span class="record-what">{what}</span>
      {shown && <b class="record-shown">{shown}</b>}
      {expected && <small class="record-expected">{say("page.expected", { expected })}</small>}
      {note && <small class="record-note">{note}</small>}
    </>
  );
}
