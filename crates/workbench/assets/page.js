// @ts-check
/** What every page does: preferences, times in local form, buttons of the list. */
import { ask, say } from "./server.js";

for (const time of document.querySelectorAll("time[data-at]")) {
  const at = new Date(Number(/** @type {HTMLElement} */ (time).dataset.at));
  time.setAttribute("datetime", at.toISOString());
  const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
  time.textContent = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())} ${two(at.getHours())}:${two(at.getMinutes())}`;
}

const preferences = /** @type {HTMLFormElement | null} */ (document.querySelector("form.preferences"));
preferences?.addEventListener("submit", (event) => event.preventDefault());
preferences?.addEventListener("change", async (event) => {
  const field = /** @type {HTMLInputElement | HTMLSelectElement} */ (event.target);
  const answer = await ask("PUT", "/api/v1/preferences", { [field.name]: field.value });
  if (!answer.ok) {
    say((answer.body.errors ?? []).map((/** @type {any} */ e) => e.message).join("; "), "error");
    return;
  }
  if (field.name === "theme") document.documentElement.dataset.theme = field.value;
  // Units change every text of a page that the program made.
  if (field.name === "units") location.reload();
});

/** @param {HTMLElement} place @param {any[]} errors */
export function showFaults(place, errors) {
  place.replaceChildren(...errors.map((e) => {
    const item = document.createElement("li");
    const where = e.line ? `line ${e.line}, column ${e.column}` : e.path;
    item.textContent = `${where ? `${where}: ` : ""}${e.message}${e.found ? `; found: ${e.found}` : ""}${e.allowed ? `; allowed: ${e.allowed}` : ""}${e.hint ? ` – ${e.hint}` : ""}`;
    return item;
  }));
  place.hidden = errors.length === 0;
}

for (const button of document.querySelectorAll("button[data-new]")) {
  button.addEventListener("click", async () => {
    const technique = /** @type {HTMLElement} */ (button).dataset.new;
    const answer = await ask("POST", "/api/v1/designs", { technique });
    if (answer.ok) location.href = `/designs/${answer.body.id}`;
    else say(answer.body.errors?.[0]?.message ?? "not created", "error");
  });
}
for (const word of ["archive", "restore"]) {
  for (const button of document.querySelectorAll(`button[data-${word}]`)) {
    button.addEventListener("click", async () => {
      const id = /** @type {HTMLElement} */ (button).dataset[word];
      const answer = await ask("POST", `/api/v1/designs/${id}/${word}`);
      if (answer.ok) location.reload();
      else say(answer.body.errors?.[0]?.message ?? "not done", "error");
    });
  }
}

const upload = /** @type {HTMLFormElement | null} */ (document.getElementById("import"));
upload?.addEventListener("submit", async (event) => {
  event.preventDefault();
  const place = /** @type {HTMLElement} */ (document.getElementById("import-faults"));
  const chosen = [.../** @type {HTMLInputElement} */ (upload.elements.namedItem("file")).files ?? []];
  const designs = chosen.filter((f) => f.name.endsWith(".toml"));
  if (designs.length === 0) {
    showFaults(place, [{ path: "", message: "choose at least one design file", allowed: "names that end in .toml" }]);
    return;
  }
  const large = chosen.filter((f) => f.size > 11_000_000);
  if (large.length > 0) {
    showFaults(place, large.map((f) => ({ path: f.name, message: "this file is too large", found: `${Math.round(f.size / 1e6)} MB`, allowed: "up to 11 MB" })));
    return;
  }
  const files = await Promise.all(chosen.filter((f) => !f.name.endsWith(".toml")).map(async (f) => ({ name: f.name, text: await f.text() })));
  const errors = [];
  let last = null;
  for (const design of designs) {
    const text = await design.text();
    const named = files.filter((f) => text.includes(f.name));
    const answer = await ask("POST", "/api/v1/designs", { text, files: named });
    if (answer.ok) last = answer.body.id;
    else errors.push(...(answer.body.errors ?? []).map((/** @type {any} */ e) => ({ ...e, message: `${design.name}: ${e.message}` })));
  }
  showFaults(place, errors);
  if (errors.length === 0 && last !== null) location.href = designs.length === 1 ? `/designs/${last}` : "/";
});

const changes = /** @type {HTMLDetailsElement | null} */ (document.getElementById("changes"));
changes?.addEventListener("toggle", async () => {
  const place = /** @type {HTMLElement} */ (changes.querySelector(".answer"));
  if (!changes.open) return;
  place.textContent = "searching …";
  const answer = await fetch(`/designs/${changes.dataset.design}/changes`).catch(() => null);
  if (!answer?.ok) {
    place.textContent = "The search could not be made; close and open this line to try again.";
    return;
  }
  const parsed = new DOMParser().parseFromString(await answer.text(), "text/html");
  place.replaceChildren(...parsed.body.childNodes);
});
