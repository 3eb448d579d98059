// Photos with numbered marks. The picture is written once and never again; what
// is marked on it is a small record beside it.
import { database } from "./db.ts";
import type { Mark, Owner, SavedPhoto } from "./schema.ts";
import { awayOf, isAway } from "./trash.ts";
import { write } from "./write.ts";

/** A picture made ready to be kept, see keep/picture.ts. */
export interface Picture {
  data: Blob;
  preview: Blob;
  width: number;
  height: number;
}

export async function addPhoto({ panel, job, thing }: Owner, picture: Picture): Promise<SavedPhoto> {
  const { data, preview, width, height } = picture;
  const image = crypto.randomUUID();
  const photo: SavedPhoto = {
    id: crypto.randomUUID(),
    panel,
    job,
    thing,
    when: new Date().toISOString(),
    image,
    width,
    height,
    bytes: data.size,
    marks: [],
    preview,
  };
  await write(["photos", "images"], { kind: "photo", id: photo.id }, async (tx) => {
    await tx.objectStore("images").add({ id: image, data });
    await tx.objectStore("photos").add(photo);
  });
  return photo;
}

/** Changes the marks of a photo as they are on disk, not as a tab last saw them. */
export async function changeMarks(id: string, change: (marks: Mark[]) => Mark[]): Promise<void> {
  await write(["photos"], { kind: "photo", id }, async (tx) => {
    const photo = await tx.objectStore("photos").get(id);
    if (photo) await tx.objectStore("photos").put({ ...photo, marks: change(photo.marks) });
  });
}

/** Photos of a panel, its jobs and things, the newest first. */
export async function photosOf(panel: string): Promise<SavedPhoto[]> {
  const away = await awayOf("photo");
  const photos = await (await database()).getAllFromIndex("photos", "panel", panel);
  return photos.filter(({ id }) => !away.has(id)).sort((a, b) => (a.when < b.when ? 1 : -1));
}

/** A photo with its picture; the picture is missing if a restore was cut short. */
export async function getPhoto(id: string): Promise<{ photo: SavedPhoto; data: Blob | undefined } | undefined> {
  if (await isAway("photo", id)) return undefined;
  const db = await database();
  const photo = await db.get("photos", id);
  return photo && { photo, data: (await db.get("images", photo.image))?.data };
}

/** Every photo that is shown, the largest first: where room can be made. */
export async function largestPhotos(): Promise<SavedPhoto[]> {
  const away = await awayOf("photo");
  const all = await (await database()).getAll("photos");
  return all.filter(({ id }) => !away.has(id)).sort((a, b) => b.bytes - a.bytes);
}
