import assert from "node:assert/strict";
import { test } from "node:test";
import { readAttempt } from "../store/attempt.ts";
import { csvOf } from "./csv.ts";

const attempt = (from: object) => ({ id: "1", title: 'A "dead" lamp, again', started: "2026-01-02", attempt: readAttempt(from) });

test("a table that a spreadsheet opens as it is", () => {
  const text = csvOf([attempt({ learner: "=1+1", grade: 2, minutes: 3.25, classes: ["open", "short"], result: "found" })]);
  assert.equal(text.charCodeAt(0), 0xfeff);
  const [head, row] = text.slice(1).split("\r\n");
  assert.ok(head?.startsWith('"started","learner","drill"'));
  assert.equal(
    row,
    `"2026-01-02","'=1+1","A ""dead"" lamp, again","2","0","open short","found","3.3","0","","","",""`,
  );
});

test("a record that is half there is read as far as it goes", () => {
  const read = readAttempt({ acts: [{ kind: "look", thing: "P1" }, 7, null, { thing: "x" }], rating: "great", minutes: "3" });
  assert.deepEqual(read.acts, [{ kind: "look", thing: "P1" }]);
  assert.equal(read.rating, null);
  assert.equal(read.minutes, 0);
  assert.deepEqual(readAttempt(null).acts, []);
});
