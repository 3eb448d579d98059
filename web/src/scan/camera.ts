// The camera on the back of the phone, and why it may not be had.

export type Reason = "insecure" | "refused" | "absent" | "busy";

export class NoCamera extends Error {
  readonly reason: Reason;
  constructor(reason: Reason) {
    super(reason);
    this.name = "NoCamera";
    this.reason = reason;
  }
}

/** What the browser calls it. Source: Media Capture and Streams, getUserMedia. */
const reasons: Record<string, Reason> = {
  NotAllowedError: "refused",
  SecurityError: "refused",
  NotFoundError: "absent",
  OverconstrainedError: "absent",
};

/** Large enough for the finest of our codes at an arm's length; more only takes longer. */
const WANTED: MediaTrackConstraints = { facingMode: "environment", width: { ideal: 1280 }, height: { ideal: 720 } };

export async function openCamera(): Promise<MediaStream> {
  // Without https a browser has no cameras to offer.
  if (!navigator.mediaDevices?.getUserMedia) throw new NoCamera("insecure");
  try {
    return await navigator.mediaDevices.getUserMedia({ video: WANTED, audio: false });
  } catch (error) {
    throw new NoCamera((error instanceof DOMException && reasons[error.name]) || "busy");
  }
}

export function closeCamera(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}
