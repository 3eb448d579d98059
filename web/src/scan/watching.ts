// The camera on a screen: on while the screen is seen, off as soon as it is not.
import { useEffect, useRef, useState } from "preact/hooks";
import { closeCamera, NoCamera, openCamera, type Reason } from "./camera.ts";
import { frameOf } from "./image.ts";
import type { Reader } from "./reader.ts";

export interface Watching {
  video: { current: HTMLVideoElement | null };
  on: boolean;
  trouble: Reason | null;
  again: () => void;
}

/** Tells of every text read; what is told is awaited before the next frame is looked at. */
export function useWatching(reader: Reader | undefined, tell: (text: string) => Promise<void>): Watching {
  const video = useRef<HTMLVideoElement>(null);
  const [on, setOn] = useState(false);
  const [trouble, setTrouble] = useState<Reason | null>(null);
  const [round, setRound] = useState(0);
  const seen = useSeen();
  useEffect(() => {
    if (!reader || !seen) return;
    const stop = new AbortController();
    void watch(reader, video, tell, stop.signal, setOn).catch((why: unknown) => {
      setTrouble(why instanceof NoCamera ? why.reason : "busy");
    });
    return () => {
      stop.abort();
      setOn(false);
    };
  }, [reader, seen, round]);
  return {
    video,
    on,
    trouble,
    again: () => {
      setTrouble(null);
      setRound((before) => before + 1);
    },
  };
}

/** Whether the page can be seen: a camera in a pocket eats the battery. */
function useSeen(): boolean {
  const [seen, setSeen] = useState(() => document.visibilityState === "visible");
  useEffect(() => {
    const changed = (): void => setSeen(document.visibilityState === "visible");
    document.addEventListener("visibilitychange", changed);
    return () => document.removeEventListener("visibilitychange", changed);
  }, []);
  return seen;
}

async function watch(
  reader: Reader,
  place: { current: HTMLVideoElement | null },
  tell: (text: string) => Promise<void>,
  signal: AbortSignal,
  setOn: (on: boolean) => void,
): Promise<void> {
  const stream = await openCamera();
  // At once, not when the frame in hand has been looked at.
  signal.addEventListener("abort", () => closeCamera(stream));
  try {
    const video = place.current;
    if (signal.aborted || !video) return;
    video.srcObject = stream;
    await video.play().catch(() => {}); // one that was left at once may not begin
    const ended = new Promise<"ended">((resolve) => {
      stream.getVideoTracks()[0]?.addEventListener("ended", () => resolve("ended"));
      signal.addEventListener("abort", () => resolve("ended"));
    });
    setOn(!signal.aborted);
    while (!signal.aborted) {
      if ((await Promise.race([ended, nextFrame(video)])) === "ended") break;
      const image = frameOf(video);
      if (!image) continue;
      for (const text of await reader.read(image, false)) if (!signal.aborted) await tell(text);
    }
    // Taken away by the system, not left by the person.
    if (!signal.aborted) throw new NoCamera("busy");
  } finally {
    closeCamera(stream);
    setOn(false);
  }
}

function nextFrame(video: HTMLVideoElement): Promise<void> {
  return new Promise((resolve) => {
    if ("requestVideoFrameCallback" in video) video.requestVideoFrameCallback(() => resolve());
    else requestAnimationFrame(() => resolve());
  });
}
