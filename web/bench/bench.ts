// The browser's side of "make bench". Core/internal/speed starts it, writes one
// command a line and reads one answer a line, both JSON, so that runs in the
// browser and native ones can alternate.
import { createInterface } from "node:readline";
import type { Request } from "../src/core/api.ts";
import { newProfile } from "../e2e/phone.ts";
import { serve } from "../e2e/server.ts";
import { coldStarts, entries } from "./page.ts";
import { Cores } from "./cores.ts";

type Command =
  | { kind: "worker" }
  | { kind: "ask"; request: Request; seconds?: number }
  | { kind: "entries" }
  | { kind: "cold"; times: number };

const server = await serve();
const profile = await newProfile();
const phone = await profile.start({ bypassCSP: true });
const cores = new Cores(phone.page, server.url);

async function obey(command: Command): Promise<unknown> {
  switch (command.kind) {
    case "worker":
      return cores.start();
    case "ask":
      return cores.ask(command.request, command.seconds ?? 600);
    case "entries":
      return entries(phone.page, server.url);
    case "cold":
      return coldStarts(server.url, command.times);
  }
}

for await (const line of createInterface({ input: process.stdin })) {
  const answer = await obey(JSON.parse(line) as Command).catch((why: unknown) => ({ error: String(why) }));
  process.stdout.write(`${JSON.stringify(answer ?? {})}\n`);
}
await phone.context.close();
await server.stop();
await profile.remove();
