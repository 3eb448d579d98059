// The browser the tests drive, and the flags that keep it off the network.
export const browserPath = process.env["CHROMIUM"] ?? "/usr/bin/chromium";

export const browserArgs = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** A phone held upright; the size every screen is designed for. */
export const phone = { width: 360, height: 740 } as const;
