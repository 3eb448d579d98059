// Working without a signal: the service worker that keeps the page and the
// core on this phone, the promise said once when it is true, and updates that
// wait for the person's yes.
import { Workbox } from "workbox-window";
import coreUrl from "../../gen/core.wasm?url";
import { getSetting, putSetting } from "../store/settings.ts";

/** Moves to the newer page, unless another tab still needs the old one. */
export type Accept = () => Promise<"moving" | "other-tabs">;

interface OfflineNews {
  /** True now, and not said on this phone before. */
  ready(): void;
  /** A newer page is on this phone and waits. */
  update(accept: Accept): void;
}

const TAB_LOCK = "halfsplit-tab";

// From the first moment: a tab that is still loading needs its files the most.
let release = "locks" in navigator ? holdTab() : () => Promise.resolve();

/** Without a service worker the page works as long as the server does. */
export async function goOffline(news: OfflineNews): Promise<void> {
  try {
    if ("serviceWorker" in navigator) await keep(news);
  } catch (why) {
    console.warn("not kept for offline use:", why);
  }
}

async function keep(news: OfflineNews): Promise<void> {
  const workbox = new Workbox("./sw.js", { scope: "./" });
  workbox.addEventListener("waiting", () => {
    news.update(async () => {
      // The old files stay until every tab has moved: with another tab open,
      // a new worker would take away what that tab may yet have to load.
      await release();
      if (!(await alone())) {
        release = holdTab();
        return "other-tabs";
      }
      workbox.addEventListener("controlling", () => location.reload());
      workbox.messageSkipWaiting();
      return "moving";
    });
  });
  await workbox.register({ immediate: true });
  await navigator.serviceWorker.ready;
  if ((await getSetting("said-offline")) || !(await caches.match(coreUrl))) return;
  await putSetting("said-offline", "yes");
  news.ready();
}

/** Marks this tab as open. Returns the way to take the mark off. */
function holdTab(): () => Promise<void> {
  let close = (): void => {};
  const open = new Promise<void>((resolve) => (close = resolve));
  const held = navigator.locks.request(TAB_LOCK, { mode: "shared" }, () => open);
  return () => {
    close();
    return held;
  };
}

/** Whether no tab holds the mark any more. */
function alone(): Promise<boolean> {
  return navigator.locks.request(TAB_LOCK, { mode: "exclusive", ifAvailable: true }, (lock) => lock !== null);
}
