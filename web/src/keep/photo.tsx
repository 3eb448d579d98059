// One photo with its numbered marks. A mark names a terminal, and a tap on it
// opens that terminal.
import { useState } from "preact/hooks";
import type { Thing } from "../panel/search.ts";
import { usePanel } from "../panel/sessions.ts";
import { changeMarks, getPhoto } from "../store/photos.ts";
import type { Mark, SavedPhoto } from "../store/schema.ts";
import { when } from "../ui/date.ts";
import { Icon } from "../ui/icon.tsx";
import type { Route } from "../ui/route.ts";
import { Screen } from "../ui/screen.tsx";
import { Trouble } from "../ui/trouble.tsx";
import { say } from "../words.ts";
import { useKept } from "./kept.ts";
import { MarkedPicture, MarkList } from "./marked.tsx";
import { Placing, type Spot } from "./placing.tsx";
import { Removed, useRemoving, type Removing } from "./removed.tsx";
import { MarkedThing } from "./markedthing.tsx";
import { thingNamed } from "./terminals.ts";

export function PhotoScreen({ photo: id }: { photo: string }) {
  const removing = useRemoving();
  const kept = useKept(
    () => getPhoto(id),
    [id],
    (change) => change.kind === "all" || (change.kind === "photo" && change.id === id),
  );
  if (kept.value) return <Shown {...kept.value} removing={removing} />;
  return (
    <Screen title={say("page.photo")} back={{ at: "panels" }}>
      <Removed removing={removing} />
      {!kept.busy && !removing.last && <Trouble error={kept.error ?? new Error(say("page.no-such-photo"))} />}
    </Screen>
  );
}

interface Props {
  photo: SavedPhoto;
  data: Blob | undefined;
  removing: Removing;
}

function Shown({ photo, data, removing }: Props) {
  const open = usePanel(photo.panel).value;
  const [spot, setSpot] = useState<Spot | null>(null);
  const [thing, setThing] = useState<Thing | null>(null);
  const [lifted, setLifted] = useState<{ mark: Mark; index: number } | null>(null);
  const title = say("page.photo-of", { when: when.format(new Date(photo.when)) });
  const change = (how: (marks: Mark[]) => Mark[]): void => void changeMarks(photo.id, how);
  const openMark = ({ terminal }: Mark): void => setThing((open && thingNamed(open.opened, terminal)) ?? null);
  const lift = (mark: Mark, index: number): void => {
    change((marks) => marks.filter((_, i) => i !== index));
    setLifted({ mark, index });
  };
  return (
    <Screen
      title={photo.thing || say("page.photo")}
      sub={when.format(new Date(photo.when))}
      back={backFrom(photo)}
      foot={
        spot ? (
          <Placing
            open={open}
            cancel={() => setSpot(null)}
            choose={(terminal) => {
              change((marks) => [...marks, { ...spot, terminal }]);
              setSpot(null);
            }}
          />
        ) : (
          <button type="button" class="action" onClick={() => setSpot({ x: 500, y: 500 })}>
            <Icon name="add" /> {say("page.mark-terminal")}
          </button>
        )
      }
    >
      {spot && <p class="lead-in">{say("page.tap-terminal")}</p>}
      {data ? (
        <MarkedPicture data={data} name={title} photo={photo} spot={spot} move={setSpot} choose={openMark} />
      ) : (
        <p class="box box-warn">{say("page.picture-missing")}</p>
      )}
      <MarkList marks={photo.marks} choose={openMark} remove={lift} />
      <div role="status">
        {lifted && (
          <p class="notice">
            <span>{say("page.mark-removed")}</span>
            <button
              type="button"
              class="second"
              onClick={() => {
                change((marks) => marks.toSpliced(lifted.index, 0, lifted.mark));
                setLifted(null);
              }}
            >
              <Icon name="undo" /> {say("page.undo")}
            </button>
          </p>
        )}
      </div>
      {!spot && (
        <button type="button" class="second apart" onClick={() => removing.remove("photo", photo.id, title)}>
          <Icon name="close" /> {say("page.remove-photo")}
        </button>
      )}
      {thing && open && <MarkedThing thing={thing} panel={photo.panel} open={open} choose={setThing} />}
    </Screen>
  );
}

function backFrom({ panel, job }: SavedPhoto): Route {
  return job ? { at: "job", job, view: "marks" } : { at: "panel", panel, view: "records" };
}
