// Points as the core names them. A wire may name a side of metal that is one
// piece: X1:4/out lands on X1:4.

/** A point without its side. */
export const sideless = (point: string): string => point.replace(/\/(in|out)$/, "");

/** Whether an end of a wire lies on the metal of a point. */
export const lands = (end: string, point: string): boolean => end === point || sideless(end) === point;
