// Pictures as text, for files.

/** The browser's own encoder: nothing of the picture passes through the page's code. */
export function base64(data: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).replace(/^[^,]*,/, ""));
    reader.onerror = () => reject(reader.error ?? new Error("the picture cannot be read"));
    reader.readAsDataURL(data);
  });
}

/** Null where the text is no base64. */
export function blobOf(base64: string, type: string): Blob | null {
  try {
    const text = atob(base64);
    const bytes = new Uint8Array(text.length);
    for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
    return new Blob([bytes], { type });
  } catch {
    return null;
  }
}
