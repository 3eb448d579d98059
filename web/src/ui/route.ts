// Where the person is, kept in the address so that a reload keeps the place.
import { useEffect, useState } from "preact/hooks";

export type Route =
  | { at: "panels" }
  | { at: "kept" }
  | { at: "deleted" }
  | { at: "settings" }
  | { at: "photo"; photo: string }
  | { at: "panel"; panel: string; view: "strips" | "devices" | "records" }
  | { at: "build"; panel: string }
  | { at: "whatif"; panel: string; fault: string; view: "list" | "strip" }
  /** Of a clamp or of milliamps, red is the wire or where the circuit is opened. */
  | { at: "meter"; panel: string; mode: string; red: string; black: string; fault: string }
  /** Something that came in and is not decided yet. */
  | { at: "received"; id: string }
  /** The record of a job that was done elsewhere. */
  | { at: "paper"; paper: string }
  | { at: "drills" }
  | { at: "attempts" }
  | { at: "short"; panel: string; form: "possible" | "predict" | "choose"; seed: number }
  | { at: "author"; panel: string; fault: string }
  | { at: "drill"; attempt: string; view: "call" | "panel" | "meter" }
  | { at: "isolate"; panel: string; refs: readonly string[] }
  | { at: "share"; kind: "panel" | "drill" | "job" | "paper"; id: string }
  | { at: "scan" }
  | { at: "job"; job: string; view: "marks" | "next" | "strip" }
  /** The job is brought to its end. */
  | { at: "leaving"; job: string }
  | { at: "record"; job: string };

export function address(route: Route): string {
  const parts = (...all: string[]): string => `#/${all.map(encodeURIComponent).join("/")}`;
  switch (route.at) {
    case "panels":
      return "#/";
    case "kept":
    case "deleted":
    case "settings":
      return parts(route.at);
    case "photo":
      return parts("photo", route.photo);
    case "paper":
      return parts("paper", route.paper);
    case "received":
      return parts("received", route.id);
    case "panel":
      return parts("panel", route.panel, route.view);
    case "build":
      return parts("build", route.panel);
    case "whatif":
      return parts("whatif", route.panel, route.fault, route.view);
    case "drills":
    case "attempts":
    case "scan":
      return parts(route.at);
    case "share":
      return parts("share", route.kind, route.id);
    case "short":
      return parts("short", route.panel, route.form, String(route.seed));
    case "author":
      return parts("author", route.panel, route.fault);
    case "drill":
      return parts("drill", route.attempt, route.view);
    case "meter":
      return parts("meter", route.panel, route.mode, route.red, route.black, route.fault);
    case "isolate":
      return parts("isolate", route.panel, ...route.refs);
    case "job":
      return parts("job", route.job, route.view);
    case "leaving":
    case "record":
      return parts(route.at, route.job);
  }
}

/** Reads an address; one that leads nowhere leads to the list of panels. */
export function routeOf(hash: string): Route {
  const [at, one = "", two = "", three = "", ...more] = hash.replace(/^#\//, "").split("/").map(decode);
  if (at === "kept" || at === "deleted" || at === "settings") return { at };
  if (at === "photo" && one) return { at, photo: one };
  if (at === "paper" && one) return { at, paper: one };
  if (at === "received" && one) return { at, id: one };
  if (at === "panel" && one) return { at, panel: one, view: two === "devices" || two === "records" ? two : "strips" };
  if (at === "build" && one) return { at, panel: one };
  if (at === "whatif" && one && two) return { at, panel: one, fault: two, view: three === "strip" ? three : "list" };
  if (at === "drills" || at === "attempts" || at === "scan") return { at };
  if (at === "share" && (one === "panel" || one === "drill" || one === "job" || one === "paper") && two) return { at, kind: one, id: two };
  if (at === "short" && one && (two === "possible" || two === "predict" || two === "choose")) {
    return { at, panel: one, form: two, seed: Number.parseInt(three, 10) || 0 };
  }
  if (at === "author" && one && two) return { at, panel: one, fault: two };
  if (at === "drill" && one) return { at, attempt: one, view: two === "panel" || two === "meter" ? two : "call" };
  if (at === "meter" && one && two) {
    return { at, panel: one, mode: two, red: three, black: more[0] ?? "", fault: more[1] ?? "" };
  }
  if (at === "isolate" && one) return { at, panel: one, refs: [two, three, ...more].filter((ref) => ref !== "") };
  if (at === "job" && one) return { at, job: one, view: two === "next" || two === "strip" ? two : "marks" };
  if ((at === "leaving" || at === "record") && one) return { at, job: one };
  return { at: "panels" };
}

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return "";
  }
}

export function go(route: Route): void {
  location.hash = address(route);
}

/** The same without a step back to where one was. */
export function replace(route: Route): void {
  history.replaceState(null, "", address(route));
  dispatchEvent(new HashChangeEvent("hashchange"));
}

export function useRoute(): Route {
  const [route, setRoute] = useState(() => routeOf(location.hash));
  useEffect(() => {
    const moved = (): void => setRoute(routeOf(location.hash));
    addEventListener("hashchange", moved);
    moved(); // somebody may have moved on before this listened
    return () => removeEventListener("hashchange", moved);
  }, []);
  return route;
}
