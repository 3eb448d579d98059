// Times of a record: when the clock on the wall said so, with its offset.

/** An ISO time of the phone's memory as RFC 3339 in local time, to the second. */
export function wallTime(iso: string): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return iso;
  const two = (n: number): string => String(n).padStart(2, "0");
  const offset = -at.getTimezoneOffset();
  const [hours, minutes] = [Math.floor(Math.abs(offset) / 60), Math.abs(offset) % 60];
  const zone = offset === 0 ? "Z" : `${offset < 0 ? "-" : "+"}${two(hours)}:${two(minutes)}`;
  const day = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
  return `${day}T${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}${zone}`;
}

/** A pause longer than this was no work on this job (choice). */
const PAUSE_MS = 30 * 60_000;

/** Minutes at work by the times of its steps, at least one where there is any step. */
export function minutesBetween(times: readonly string[]): number {
  let work = 0;
  for (let i = 1; i < times.length; i++) {
    const gap = Date.parse(times[i] ?? "") - Date.parse(times[i - 1] ?? "");
    if (gap > 0 && gap <= PAUSE_MS) work += gap;
  }
  return times.length === 0 ? 0 : Math.max(1, Math.round(work / 60_000));
}
