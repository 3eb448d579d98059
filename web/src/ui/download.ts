/** How long a browser may take to begin with a file that it was handed. */
const HANDED_MS = 60_000;

/** Hands a file to the person. */
export function download(file: File): void {
  const url = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = url;
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), HANDED_MS);
}
