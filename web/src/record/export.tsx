// How a record leaves the phone: sent or saved as text, as a table, as a page; or
// printed from here. The page to save is the core's and is never put into this
// one; what is printed is this page's own rendering of the same lines.
import { useState } from "preact/hooks";
import type { Job } from "../core/api.ts";
import { getSetting, putSetting } from "../store/settings.ts";
import { useAnswer } from "../ui/answer.ts";
import { Dialog } from "../ui/dialog.tsx";
import { download } from "../ui/download.ts";
import { Icon, type IconName } from "../ui/icon.tsx";
import { address, type Route } from "../ui/route.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say, type Code } from "../words.ts";
import { recordOf, type Form, type Paper } from "./ask.ts";

/** Where the paper that was chosen last is kept. */
const PAPER = "paper";

/** The paper that was chosen last. */
export function usePaper(): [Paper, (paper: Paper) => void] {
  const [chosen, choose] = useState<Paper | null>(null);
  const last = useAnswer(() => getSetting(PAPER), []).value;
  return [chosen ?? (last === "letter" ? "letter" : "A4"), choose];
}

const forms: { form: Form; ending: string; icon: IconName; name: Code; about: Code }[] = [
  { form: "text", ending: "txt", icon: "note", name: "page.as-text", about: "page.as-text-about" },
  { form: "csv", ending: "csv", icon: "list", name: "page.as-csv", about: "page.as-csv-about" },
  { form: "html", ending: "html", icon: "eye", name: "page.as-page", about: "page.as-page-about" },
];
const papers: readonly Paper[] = ["A4", "letter"];

interface Props {
  /** Where it goes to another phone from, with its panel. */
  over: Route;
  document: Job;
  paper: Paper;
  choose: (paper: Paper) => void;
  close: () => void;
}

export function ExportSheet({ over, document, paper, choose, close }: Props) {
  const [error, setError] = useState<unknown>();
  const [made, setMade] = useState("");
  const write = async (form: Form, ending: string): Promise<void> => {
    try {
      const { content, type } = await recordOf(document, form, paper);
      const name = `${fileName(document)}.${ending}`;
      download(new File([content], name, { type }));
      setMade(name);
      setError(undefined);
    } catch (why) {
      setError(why);
    }
  };
  const print = (): void => {
    close();
    setTimeout(() => window.print()); // once the sheet is gone from the page
  };
  return (
    <Dialog title={say("page.hand-over")} sub={document.title} close={close}>
      <ul class="choices">
        <li>
          <a class="choice" href={address(over)}>
            <span>
              <b>{say("page.to-another-phone")}</b>
              <small>{say("page.to-another-phone-about")}</small>
            </span>
            <Icon name="send" />
          </a>
        </li>
        {forms.map(({ form, ending, icon, name, about }) => (
          <li key={form}>
            <button type="button" class="choice" onClick={() => void write(form, ending)}>
              <span>
                <b>{say(name)}</b>
                <small>{say(about)}</small>
              </span>
              <Icon name={icon} />
            </button>
          </li>
        ))}
      </ul>
      <div role="status">{made && <p class="notice">{say("page.was-handed", { name: made })}</p>}</div>
      {error !== undefined && <Trouble error={error} />}
      <fieldset class="units">
        <legend class="unseen">{say("page.paper")}</legend>
        {papers.map((one) => (
          <label key={one} class={one === paper ? "unit unit-on" : "unit"}>
            <input
              type="radio"
              class="unseen"
              name="paper"
              checked={one === paper}
              onChange={() => void putSetting(PAPER, one).then(() => choose(one))}
            />
            {say(`page.paper-${one}`)}
          </label>
        ))}
      </fieldset>
      <button type="button" class="action" onClick={print}>
        {say("page.print")}
      </button>
    </Dialog>
  );
}

/** The day and what was dead, in characters every file system takes. */
function fileName({ started = "", title }: Job): string {
  const words = title.normalize("NFKD").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-|-$/g, "").slice(0, 40);
  return [started.slice(0, "2026-11-27".length), words].filter(Boolean).join("-") || "record";
}
