// The ways in from outside the page: a file that is dropped on it or opened with
// it, something another program shares, a link. In the middle of work, what comes
// is kept and offered, and never takes the work off the screen.
import { useEffect, useRef, useState } from "preact/hooks";
import { Dialog } from "../ui/dialog.tsx";
import { go, replace, routeOf, type Route } from "../ui/route.ts";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { receive, textOf } from "./incoming.ts";
import { linkIn, sharedIn, sharedText, type Shared } from "./address.ts";

/** What a person may be in the middle of. */
const work: ReadonlySet<Route["at"]> = new Set(["job", "build", "drill", "isolate", "short"]);

export function Doors({ route }: { route: Route }) {
  const [error, setError] = useState<unknown>();
  const [waiting, setWaiting] = useState<{ id: string; title: string } | null>(null);
  const at = useRef(route.at);
  at.current = route.at;

  const take = async (bring: () => Promise<Shared>): Promise<void> => {
    setError(undefined);
    try {
      const { text, name } = await bring();
      const { id, title } = await receive(text, name);
      if (work.has(at.current)) setWaiting({ id, title });
      else go({ at: "received", id });
    } catch (why) {
      setError(why);
    }
  };
  const takeFile = (file: File): Promise<void> => take(async () => ({ text: await textOf(file), name: file.name }));

  useEffect(() => {
    const look = (before: string): void => {
      const link = linkIn(location.hash);
      const shared = sharedIn(location.hash);
      if (link === null && shared === null) return;
      // Off the address at once: a reload or a step back must not bring it again.
      replace(routeOf(before));
      at.current = routeOf(before).at;
      if (link !== null) void take(() => Promise.resolve({ text: link, name: "" }));
      else if (shared !== null) void take(() => sharedText(shared));
    };
    const moved = ({ oldURL }: HashChangeEvent): void => look(oldURL ? new URL(oldURL).hash : "");
    look("");
    addEventListener("hashchange", moved);
    launched((file) => void takeFile(file));
    return () => removeEventListener("hashchange", moved);
  }, []);

  return (
    <>
      <DropZone take={(file) => void takeFile(file)} />
      {waiting && (
        <p class="notice" role="status" data-waiting>
          <span class="told">{say("page.received-in-job", { title: waiting.title })}</span>
          <button
            type="button"
            class="second"
            onClick={() => {
              setWaiting(null);
              go({ at: "received", id: waiting.id });
            }}
          >
            {say("page.look-at-it")}
          </button>
          <button type="button" class="second" onClick={() => setWaiting(null)}>
            {say("page.later")}
          </button>
        </p>
      )}
      {error !== undefined && (
        <Dialog title={say("page.could-not-read")} close={() => setError(undefined)}>
          <Trouble error={error} />
        </Dialog>
      )}
    </>
  );
}

/** Anywhere on the page; shown for as long as a file is held over it. */
function DropZone({ take }: { take: (file: File) => void }) {
  const [over, setOver] = useState(false);
  const now = useRef(take);
  now.current = take;
  useEffect(() => {
    const holdsFile = ({ dataTransfer }: DragEvent): boolean => dataTransfer?.types.includes("Files") ?? false;
    const stop = new AbortController();
    const on = (name: "dragover" | "dragleave" | "drop", act: (event: DragEvent) => void): void =>
      document.addEventListener(name, (event) => holdsFile(event) && act(event), { signal: stop.signal });
    on("dragover", (event) => {
      event.preventDefault();
      setOver(true);
    });
    // Also between two elements of the page, which is no leaving.
    on("dragleave", ({ relatedTarget }) => relatedTarget === null && setOver(false));
    on("drop", (event) => {
      event.preventDefault();
      setOver(false);
      const file = event.dataTransfer?.files[0];
      if (file) now.current(file);
    });
    return () => stop.abort();
  }, []);
  if (!over) return null;
  return (
    <div class="drop" data-drop>
      <p class="strong">{say("page.drop-here")}</p>
    </div>
  );
}

interface Launch {
  files?: readonly { getFile(): Promise<File> }[];
}

/** Files that the phone opens with the installed page. */
function launched(take: (file: File) => void): void {
  const { launchQueue } = window as { launchQueue?: { setConsumer(consumer: (launch: Launch) => void): void } };
  launchQueue?.setConsumer(({ files = [] }) => {
    void files[0]?.getFile().then(take);
  });
}

