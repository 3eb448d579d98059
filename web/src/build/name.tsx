// What the panel is called, and what there is to say of it.
import { useState } from "preact/hooks";
import type { Opened } from "../core/api.ts";
import { Icon } from "../ui/icon.tsx";
import { say } from "../words.ts";
import { Entry } from "./fields.tsx";
import type { Act } from "./use.ts";

export function NameSheetBody({ opened, act }: { opened: Opened; act: Act }) {
  const [name, setName] = useState(opened.name);
  const [about, setAbout] = useState(opened.about);
  const same = name.trim() === opened.name && about.trim() === opened.about;
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        const said = about.trim() === "" ? { clear: ["about"] } : { about: about.trim() };
        void act({ op: "name", name: name.trim(), ...said });
      }}
    >
      <Entry name={say("page.build-name")} hint={say("page.build-name-hint")} value={name} set={setName} first />
      <Entry name={say("page.build-about")} value={about} set={setAbout} />
      <button type="submit" class="action sheet-action" disabled={name.trim() === "" || same}>
        <Icon name="works" /> {say("page.build-name-write")}
      </button>
    </form>
  );
}
