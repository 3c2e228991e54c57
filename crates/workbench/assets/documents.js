// @ts-check
/** Documents: order, progress, download. */
import { showFaults } from "./page.js";
import { html } from "./draw.js";
import { ask } from "./server.js";

const form = /** @type {HTMLFormElement} */ (document.getElementById("order"));
const faults = /** @type {HTMLElement} */ (document.getElementById("faults"));

/** @param {string} id */
const byId = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const data = new FormData(form);
  const answer = await ask("POST", `/api/v1/designs/${form.dataset.design}/documents`, {
    parts: data.getAll("parts"), date: data.get("date"), revision: data.get("revision"), author: data.get("author"),
  });
  showFaults(faults, answer.ok ? [] : answer.body.errors ?? []);
  if (answer.ok) follow(answer.body.job);
});

/** @param {number} job */
async function follow(job) {
  byId("made").hidden = false;
  byId("all").hidden = true;
  for (;;) {
    const answer = await ask("GET", `/api/v1/documents/${job}`);
    if (!answer.ok) {
      showFaults(faults, answer.body.errors ?? []);
      return;
    }
    const state = answer.body;
    const done = state.parts.filter((/** @type {any} */ p) => p.done).length;
    const bar = /** @type {HTMLProgressElement} */ (byId("progress"));
    bar.max = state.parts.length;
    bar.value = done;
    byId("state").textContent = state.finished
      ? `revision ${state.revision}: ${state.files.length} files`
      : `making ${state.parts.find((/** @type {any} */ p) => !p.done)?.part ?? ""} …`;
    byId("files").replaceChildren(...state.files.map((/** @type {any} */ f) => html("tr", {}, [
      html("td", {}, [html("a", { href: `/api/v1/documents/${job}/files/${f.name}`, download: f.name }, [f.name])]),
      html("td", {}, [f.title]),
      html("td", { class: "number" }, [`${Math.ceil(f.bytes / 1000)} kB`]),
    ])));
    byId("omitted").replaceChildren(...state.omitted.map((/** @type {any} */ o) => html("li", {}, [`${o.name} was not made: ${o.reason}`])));
    showFaults(faults, state.errors);
    if (state.finished) {
      const all = /** @type {HTMLAnchorElement} */ (byId("all"));
      all.href = `/api/v1/documents/${job}/all.zip`;
      all.hidden = state.files.length === 0;
      return;
    }
    await new Promise((next) => setTimeout(next, 250));
  }
}
