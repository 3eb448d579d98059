import assert from "node:assert/strict";
import { test } from "node:test";
import { CoreClient, CoreError, type WorkerLike } from "./client.ts";
import type { Ask, Tell } from "./protocol.ts";

/** A worker that answers only when the test says so. */
class Hand implements WorkerLike {
  onmessage: ((event: MessageEvent<Tell>) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  asked: { id: number; request: unknown }[] = [];
  dead = false;
  postMessage({ id, request }: Ask): void {
    this.asked.push({ id, request: JSON.parse(new TextDecoder().decode(request)) });
  }
  terminate(): void {
    this.dead = true;
  }
  say(data: Tell): void {
    this.onmessage?.({ data } as MessageEvent<Tell>);
  }
  ready(version = "v1"): void {
    this.say({ kind: "ready", version });
  }
  answer(index: number, response: unknown): void {
    const ask = this.asked[index];
    assert.ok(ask, `nothing asked at ${index}`);
    this.say({ kind: "answer", id: ask.id, response: new TextEncoder().encode(JSON.stringify(response)) });
  }
}

function setup(patience = 1e9) {
  const hands: Hand[] = [];
  const client = new CoreClient({
    version: "v1",
    patience,
    spawn: () => {
      const hand = new Hand();
      hands.push(hand);
      return hand;
    },
  });
  const hand = (index: number): Hand => {
    const found = hands[index];
    assert.ok(found, `worker ${index} was never started`);
    return found;
  };
  return { client, hands, hand };
}

test("the worker starts on first use and is asked one thing at a time", async () => {
  const { client, hands, hand } = setup();
  assert.equal(hands.length, 0);
  const one = client.call({ n: 1 });
  const two = client.call({ n: 2 });
  hand(0).ready();
  assert.deepEqual(
    hand(0).asked.map((a) => a.request),
    [{ n: 1 }],
  );
  hand(0).answer(0, "first");
  assert.equal(await one, "first");
  assert.deepEqual(
    hand(0).asked.map((a) => a.request),
    [{ n: 1 }, { n: 2 }],
  );
  hand(0).answer(1, "second");
  assert.equal(await two, "second");
  assert.equal(hands.length, 1);
});

test("a call aborted while it waits is never sent", async () => {
  const { client, hand } = setup();
  const stop = new AbortController();
  const one = client.call({ n: 1 });
  const two = client.call({ n: 2 }, stop.signal);
  hand(0).ready();
  stop.abort();
  await assert.rejects(two, { name: "AbortError" });
  hand(0).answer(0, "first");
  await one;
  assert.equal(hand(0).asked.length, 1);
});

test("an answer that comes after the abort is dropped", async () => {
  const { client, hand } = setup();
  const stop = new AbortController();
  const one = client.call({ n: 1 }, stop.signal);
  hand(0).ready();
  stop.abort();
  await assert.rejects(one, { name: "AbortError" });
  const two = client.call({ n: 2 });
  hand(0).answer(0, "stale");
  hand(0).answer(1, "fresh");
  assert.equal(await two, "fresh");
});

test("an abandoned call that keeps others waiting costs the worker its life", async () => {
  const { client, hands, hand } = setup(0);
  const before = client.generation;
  const stop = new AbortController();
  const one = client.call({ sweep: true }, stop.signal);
  hand(0).ready();
  stop.abort();
  await assert.rejects(one, { name: "AbortError" });
  const two = client.call({ n: 2 });
  while (hands.length < 2) await new Promise((resolve) => setTimeout(resolve, 0));
  assert.equal(hand(0).dead, true);
  hand(1).ready();
  assert.notEqual(client.generation, before);
  assert.deepEqual(
    hand(1).asked.map((a) => a.request),
    [{ n: 2 }],
  );
  hand(1).answer(0, "fresh");
  assert.equal(await two, "fresh");
});

test("a core that throws is replaced, and only the call that broke it fails", async () => {
  const { client, hand } = setup();
  const one = client.call({ n: 1 });
  const two = client.call({ n: 2 });
  hand(0).ready();
  hand(0).say({ kind: "broken", id: 1, why: "RangeError: Maximum call stack size exceeded" });
  await assert.rejects(one, (e) => e instanceof CoreError && e.code === "broken" && /RangeError/.test(e.message));
  assert.equal(hand(0).dead, true);
  hand(1).ready();
  hand(1).answer(0, "fine");
  assert.equal(await two, "fine");
});

test("a core of another version is refused, for this call and all others", async () => {
  const { client, hands, hand } = setup();
  const one = client.call({ n: 1 });
  hand(0).ready("v0");
  await assert.rejects(one, (e) => e instanceof CoreError && e.code === "version");
  await assert.rejects(client.call({ n: 2 }), (e) => e instanceof CoreError && e.code === "version");
  assert.equal(hand(0).dead, true);
  assert.equal(hands.length, 1);
});

test("a core that breaks while starting fails what waits, and is not started in a loop", async () => {
  const { client, hands, hand } = setup();
  const one = client.call({ n: 1 });
  hand(0).say({ kind: "broken", id: null, why: "CompileError" });
  await assert.rejects(one, (e) => e instanceof CoreError && e.code === "broken");
  assert.equal(hands.length, 1);
});
