// Attempts as a table for a spreadsheet: byte-order mark, every cell quoted, and
// no cell that one of those programs would take for a formula.
import type { SavedAttempt } from "../store/drills.ts";

const columns = ["started", "learner", "drill", "grade", "seed", "classes", "result", "minutes", "readings", "gates", "rating", "remark", "signed"];

export function csvOf(list: readonly SavedAttempt[]): string {
  const rows = list.map(({ started, title, attempt }) => [
    started,
    attempt.learner,
    title,
    attempt.grade,
    attempt.seed,
    attempt.classes.join(" "),
    attempt.result,
    attempt.minutes.toFixed(1),
    attempt.readings,
    attempt.gates.join(" "),
    attempt.rating ?? "",
    attempt.remark,
    attempt.signed,
  ]);
  return `\uFEFF${[columns, ...rows].map((row) => row.map(cell).join(",")).join("\r\n")}\r\n`;
}

function cell(value: string | number): string {
  const text = String(value);
  const guarded = typeof value === "string" && /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return `"${guarded.replaceAll('"', '""')}"`;
}
