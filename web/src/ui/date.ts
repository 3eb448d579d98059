// Dates as the phone's owner writes them.
export const when = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeStyle: "short" });
export const day = new Intl.DateTimeFormat(undefined, { dateStyle: "medium" });
