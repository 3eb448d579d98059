// Handing a file to another program of the phone.

/** Browsers send on only kinds of files they know, and JSON is none of them (the Chromium project's list for Web Share). */
const asText = (file: File): File => new File([file], file.name.replace(/\.json$/, ".txt"), { type: "text/plain" });

export function canSend(): boolean {
  const probe = asText(new File(["{}"], "probe.json"));
  return typeof navigator.share === "function" && typeof navigator.canShare === "function" && navigator.canShare({ files: [probe] });
}

/** Resolves to the file that was taken; rejects with an AbortError where the person thought better of it. */
export async function send(file: File, title = ""): Promise<File> {
  const text = asText(file);
  await navigator.share({ files: [text], ...(title && { title }) });
  return text;
}

export const thoughtBetter = (why: unknown): boolean => why instanceof DOMException && why.name === "AbortError";
