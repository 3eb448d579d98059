// The real server, started for one test, behind a gate the test can shut or
// use to change what a phone is given.
import { spawn, type ChildProcess } from "node:child_process";
import { createServer, request, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { fileURLToPath } from "node:url";

export const program = fileURLToPath(new URL("../../bin/halfsplit", import.meta.url));

/** Replaces the answer for a path; null lets the real one through. */
type Change = (path: string) => { status: number; type: string; body: string } | null;

export interface Served {
  url: string;
  change(how: Change): void;
  stop(): Promise<void>;
}

interface Host {
  port?: number;
  /** A host of files that sets no policy of its own. */
  bare?: boolean;
}

export async function serve({ port = 0, bare = false }: Host = {}): Promise<Served> {
  const child = spawn(program, ["serve", "--addr", "127.0.0.1:0"], { stdio: ["ignore", "pipe", "inherit"] });
  const behind = new URL(await firstAddress(child));
  let change: Change = () => null;
  const gate = createServer((incoming, outgoing) => {
    const instead = change(incoming.url ?? "/");
    if (instead) {
      outgoing.writeHead(instead.status, { "Content-Type": instead.type, "Cache-Control": "no-cache" });
      outgoing.end(instead.body);
      return;
    }
    const onward = request(
      {
        host: behind.hostname,
        port: behind.port,
        path: incoming.url,
        method: incoming.method,
        headers: incoming.headers,
      },
      (answer) => {
        if (bare) delete answer.headers["content-security-policy"];
        outgoing.writeHead(answer.statusCode ?? 502, answer.headers);
        answer.pipe(outgoing);
      },
    );
    onward.on("error", () => outgoing.destroy());
    incoming.pipe(onward);
  });
  await new Promise<void>((resolve) => gate.listen(port, "127.0.0.1", resolve));
  return {
    url: `http://localhost:${(gate.address() as AddressInfo).port}/`,
    change: (how) => (change = how),
    stop: async () => {
      await shut(gate);
      await ended(child);
    },
  };
}

function firstAddress(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = "";
    child.stdout?.on("data", (chunk: Buffer) => {
      said += chunk.toString();
      const found = /http:\S+/.exec(said);
      if (found) resolve(found[0]);
    });
    child.on("exit", (code) => reject(new Error(`halfsplit serve ended with ${code}: ${said}`)));
  });
}

function shut(gate: Server): Promise<void> {
  return new Promise((resolve) => {
    gate.close(() => resolve());
    gate.closeAllConnections();
  });
}

function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null) return Promise.resolve();
  return new Promise((resolve) => {
    child.removeAllListeners("exit");
    child.on("exit", () => resolve());
    child.kill("SIGTERM");
  });
}
