// What is done once for as long as the page lives, so that what is kept stays.
import { askToKeep, keeping } from "../store/room.ts";
import { getSetting, putSetting } from "../store/settings.ts";
import { purge } from "../store/trash.ts";
import { LeftOut, onFirstWrite } from "../store/write.ts";

export function watchOver(): void {
  // Asking before there is anything to keep would be asking for nothing.
  onFirstWrite(() => void askOnce());
  // Where the memory cannot be opened, every screen says so itself.
  void purge().catch(() => {});
  addEventListener("unhandledrejection", (event) => {
    // The person has chosen, and was told what it means.
    if (event.reason instanceof LeftOut) event.preventDefault();
  });
}

/** Some browsers ask the person in turn: one question in the life of a phone. */
async function askOnce(): Promise<void> {
  if ((await keeping()) !== "may-clear" || (await getSetting("asked-to-keep"))) return;
  await putSetting("asked-to-keep", "yes");
  await askToKeep();
}
