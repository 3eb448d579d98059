import { render } from "preact";
import { core } from "./core/core.ts";
import { goOffline } from "./offline/offline.ts";
import { say } from "./words.ts";

const root = document.getElementById("app");
if (root) {
  render(<main><h1>{say("page.panels")}</h1><p id="echo"></p></main>, root);
  void core.call({ hello: 1 }).then((r) => {
    const p = document.getElementById("echo");
    if (p) p.textContent = JSON.stringify(r);
  });
  void goOffline({ ready: () => { root.dataset["ready"] = "yes"; }, update: () => {} });
}
