// Taking over what another phone or a sheet of paper shows as codes.
import { useEffect, useRef, useState } from "preact/hooks";
import { gather } from "../core/share.ts";
import { pulse } from "../manners/pulse.ts";
import { incoming } from "../receive/incoming.ts";
import { useAnswer } from "../ui/answer.ts";
import { FileButton } from "../ui/filebutton.tsx";
import { Icon } from "../ui/icon.tsx";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { Gathering, type Found } from "./gathering.ts";
import { imageOf, SIDES } from "./image.ts";
import { newReader, type Reader } from "./reader.ts";
import { useWatching } from "./watching.ts";

type Progress = Pick<Extract<Found, { kind: "part" | "whole" }>, "state" | "aside">;

export function ScanScreen() {
  const reader = useReader();
  const [read, setRead] = useState<Progress | null>(null);
  const [said, setSaid] = useState("");
  const [error, setError] = useState<unknown>();
  const gathering = useRef(new Gathering(gather));

  const tell = async (text: string): Promise<void> => {
    try {
      const found = await gathering.current.take(text);
      if (!found) return;
      setError(found.kind === "refused" ? found.error : undefined);
      setSaid(sentence(found));
      if (found.kind !== "part" && found.kind !== "whole") return;
      setRead(found);
      pulse(found.kind === "whole" ? "look" : "stored");
      if (found.kind === "whole") await incoming(found.state.document, found.state.name);
    } catch (why) {
      setError(why);
      gathering.current = new Gathering(gather); // so that the same code can be tried again
    }
  };
  const watching = useWatching(reader, tell);

  const picture = async (file: File): Promise<void> => {
    setError(undefined);
    const texts = reader ? await readPicture(reader, file) : [];
    if (texts.length === 0) setSaid(say("page.no-code-there"));
    for (const text of texts) await tell(text);
  };
  const restart = (): void => {
    gathering.current = new Gathering(gather);
    setRead(null);
    setSaid("");
    setError(undefined);
  };
  return (
    <Screen
      title={say("page.scan")}
      awake
      back={{ at: "panels" }}
      foot={
        <div class="foot-row">
          {/* Several can be chosen at once: a photo of each code. */}
          <FileButton label={say("page.scan-picture")} icon="picture" pictures several main read={picture} />
          {read && (
            <button type="button" class="second" onClick={restart}>
              <Icon name="undo" /> {say("page.scan-again")}
            </button>
          )}
        </div>
      }
    >
      {watching.trouble ? (
        <div class="box box-warn" role="alert" data-no-camera={watching.trouble}>
          <Icon name="caution" />
          <div>
            <p class="strong">{say(`page.camera-${watching.trouble}`)}</p>
            <p>{say(`page.camera-${watching.trouble}-hint`)}</p>
            <p>{say("page.camera-else")}</p>
            <button type="button" class="second" onClick={watching.again}>
              <Icon name="camera" /> {say("page.camera-again")}
            </button>
          </div>
        </div>
      ) : (
        <div class="finder" data-on={watching.on}>
          <video ref={watching.video} aria-hidden="true" muted playsInline />
          {!watching.on && <p>{say("page.camera-starting")}</p>}
        </div>
      )}
      <p class="scan-said" role="status">
        {said || say("page.scan-how")}
      </p>
      {read && read.state.count > 1 && <Cells {...read} />}
      {error !== undefined && <Trouble error={error} />}
      <p class="note">{say("page.scan-private")}</p>
    </Screen>
  );
}

/** Which codes of the set have come. */
function Cells({ state, aside }: Progress) {
  const have = new Set(state.have);
  return (
    <div data-have={state.have.length} data-count={state.count}>
      <ol class="cells" aria-hidden="true">
        {Array.from({ length: state.count }, (_, index) => (
          <li key={index} data-have={have.has(index + 1)}>
            {index + 1}
          </li>
        ))}
      </ol>
      {aside > 0 && <p class="note">{say("page.scan-other-set", { n: aside })}</p>}
    </div>
  );
}

/** Longer than this the text of a foreign code tells nobody more. */
const SHOWN = 40;

function sentence(found: Found): string {
  switch (found.kind) {
    case "whole":
      return say("page.scan-whole", { name: found.state.name });
    case "part":
      return say("page.scan-part", {
        have: found.state.have.length,
        count: found.state.count,
        missing: found.state.missing.join(", "),
      });
    case "foreign":
      return say("page.scan-foreign", { text: found.text.slice(0, SHOWN) });
    case "refused":
      return "";
  }
}

function useReader(): Reader | undefined {
  const reader = useAnswer(newReader, []).value;
  useEffect(() => reader && (() => reader.close()), [reader]);
  return reader;
}

async function readPicture(reader: Reader, file: File): Promise<string[]> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file);
  } catch {
    return []; // no picture at all
  }
  try {
    for (const side of SIDES) {
      const texts = await reader.read(imageOf(picture, side), true);
      if (texts.length > 0) return texts;
    }
    return [];
  } finally {
    picture.close();
  }
}
