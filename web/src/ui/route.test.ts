import assert from "node:assert/strict";
import { test } from "node:test";
import { address, routeOf, type Route } from "./route.ts";

test("an address leads back to where it was made", () => {
  const all: Route[] = [
    { at: "panels" },
    { at: "kept" },
    { at: "deleted" },
    { at: "photo", photo: "7" },
    { at: "panel", panel: "demo:dosing-skid", view: "strips" },
    { at: "panel", panel: "file:1/2", view: "records" },
    { at: "panel", panel: "file:1/2", view: "devices" },
    { at: "whatif", panel: "demo:x", fault: "W12@X1:4/out=moved:X1:5/out", view: "strip" },
    { at: "whatif", panel: "demo:x", fault: "X3:7.2=lever-open", view: "list" },
    { at: "received", id: "8" },
    { at: "paper", paper: "9" },
    { at: "share", kind: "panel", id: "file:1/2" },
    { at: "share", kind: "job", id: "7" },
    { at: "share", kind: "paper", id: "9" },
    { at: "scan" },
    { at: "job", job: "7", view: "next" },
    { at: "job", job: "7", view: "marks" },
    { at: "leaving", job: "7" },
    { at: "record", job: "a/b" },
  ];
  for (const route of all) assert.deepEqual(routeOf(address(route)), route);
});

test("an address that leads nowhere leads to the panels", () => {
  for (const hash of ["", "#", "#/panel", "#/job/", "#/record/", "#/whatif/x", "#/share/panel", "#/share/cat/1", "#/%E0%A4%A/x", "#/elsewhere/1"]) {
    assert.deepEqual(routeOf(hash), { at: "panels" }, hash);
  }
});
