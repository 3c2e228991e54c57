// @ts-check
/** The design file as text: what is typed is kept as a draft, errors are told with line and column. */
import { showFaults } from "./page.js";
import { ask, say, window_mark } from "./server.js";

const form = /** @type {HTMLFormElement} */ (document.getElementById("file"));
const area = /** @type {HTMLTextAreaElement} */ (document.getElementById("text"));
const faults = /** @type {HTMLElement} */ (document.getElementById("faults"));
const address = `/api/v1/designs/${form.dataset.design}`;
let base = Number(form.dataset.base);

/** @type {number | undefined} */
let timer;
area.addEventListener("input", () => {
  clearTimeout(timer);
  timer = setTimeout(keep, 600);
});

async function keep() {
  const answer = await ask("PUT", `${address}/draft`, { base, text: area.value });
  say(answer.ok ? "Kept as a draft." : `Not kept: ${answer.body.errors?.[0]?.message ?? "no answer"}`, answer.ok ? "note" : "error");
}

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  clearTimeout(timer);
  const note = String(new FormData(form).get("note") ?? "") || "text edited";
  const answer = await ask("PUT", address, { base, text: area.value, note, window: window_mark });
  if (answer.ok) {
    base = answer.body.revision;
    await ask("DELETE", `${address}/draft`);
    showFaults(faults, []);
    document.getElementById("draft-note")?.remove();
    say(`Saved as revision ${base}.`);
    return;
  }
  await keep();
  showFaults(faults, answer.body.errors ?? []);
  const first = (answer.body.errors ?? []).find((/** @type {any} */ e) => e.line);
  if (first) show(first.line, first.column);
});

/** Puts the caret at a place. @param {number} line @param {number} column */
function show(line, column) {
  const lines = area.value.split("\n");
  const start = lines.slice(0, line - 1).reduce((sum, l) => sum + l.length + 1, 0) + column - 1;
  area.focus();
  area.setSelectionRange(start, start + 1);
  area.scrollTop = Math.max(0, (line - 6) * (area.scrollHeight / Math.max(lines.length, 1)));
}

document.getElementById("fresh")?.addEventListener("click", async () => {
  clearTimeout(timer);
  const answer = await ask("GET", address);
  if (!answer.ok) {
    say(answer.body.errors?.[0]?.message ?? "no answer", "error");
    return;
  }
  area.value = answer.body.text;
  base = answer.body.revision;
  await ask("DELETE", `${address}/draft`);
  document.getElementById("draft-note")?.remove();
  showFaults(faults, []);
  say(`Revision ${base}, as saved.`);
});
