import { say } from "../words.ts";

/** A number of bytes as people read it: "340 kB", "12.3 MB". */
export function sizeOf(bytes: number): string {
  if (bytes < 1e6) return say("page.kilobytes", { n: Math.ceil(bytes / 1e3) });
  if (bytes < 1e9) return say("page.megabytes", { n: (bytes / 1e6).toFixed(1) });
  return say("page.gigabytes", { n: (bytes / 1e9).toFixed(1) });
}
