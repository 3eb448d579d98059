// Small choices by name.
import { database } from "./db.ts";
import { once } from "./write.ts";

export async function getSetting(name: string): Promise<string | undefined> {
  return (await database()).get("settings", name);
}

export async function putSetting(name: string, value: string): Promise<void> {
  await once(["settings"], (tx) => tx.objectStore("settings").put(value, name));
}
