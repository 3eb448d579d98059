// What an address brings: a link with the document in it, or the place where the
// service worker has put what another program shared. Both stand behind the #,
// which no server is sent.
import { say } from "../words.ts";
import { NotTaken } from "./incoming.ts";

export interface Shared {
  text: string;
  name: string;
}

/** The packed text of a link; null where the address is none. */
export function linkIn(hash: string): string | null {
  const packed = /^#\/?open[=/](.*)$/s.exec(hash)?.[1];
  return packed === undefined ? null : packed;
}

/** The name under which the service worker keeps what was shared. */
export function sharedIn(hash: string): string | null {
  return /^#\/shared\/([\w-]+)$/.exec(hash)?.[1] ?? null;
}

/** As in public/shared.js. */
const SHARED_CACHE = "halfsplit-shared";

/** What was shared, taken from where it was put. Errors: NotTaken; that nothing is there. */
export async function sharedText(id: string): Promise<Shared> {
  if (id === "too-large") throw new NotTaken("too-large");
  const cache = await caches.open(SHARED_CACHE);
  const place = new URL(`./shared/${id}`, location.href);
  const kept = await cache.match(place);
  if (!kept) throw new Error(say("page.shared-lost"));
  const shared = { text: await kept.text(), name: decodeURIComponent(kept.headers.get("X-Name") ?? "") };
  await cache.delete(place);
  return shared;
}
