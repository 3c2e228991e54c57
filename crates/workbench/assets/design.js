// @ts-check
/** The design page: the picture follows the hand, every change is a revision that can be undone. */
import { units } from "./draw.js";
import { Checks } from "./checks.js";
import { Cross } from "./cross.js";
import { Forms } from "./forms.js";
import { Plan } from "./plan.js";
import { Section } from "./section.js";
import { Strips } from "./strips.js";
import { ask, say, window_mark } from "./server.js";

/** @typedef {import("./types").Picture} Picture */
/** @typedef {import("./types").Handle} Handle */

const root = /** @type {HTMLElement} */ (document.getElementById("design"));
const id = Number(root.dataset.design);
let revision = Number(root.dataset.revision);
/** @type {Picture | null} */
let picture = null;
/** @type {[number, number] | null} */
let range = null;
let unit = units([]);
/** @type {{path: string, si: number}[]} */
let pending = [];
/** @type {Handle | null} */
let moving = null;

const section = new Section(/** @type {SVGSVGElement} */ (/** @type {unknown} */ (byId("section"))), moved);
const strips = new Strips(byId("strips"));
const checks = new Checks(byId("checks"), id);
const plan = new Plan(/** @type {SVGSVGElement} */ (/** @type {unknown} */ (byId("plan"))));
const cross = new Cross(/** @type {SVGSVGElement} */ (/** @type {unknown} */ (byId("cross"))));
const forms = new Forms(byId("forms"), { design: id, save: saveEdits, current: () => revision });

/** @param {string} name @returns {HTMLElement} */
function byId(name) {
  const element = document.getElementById(name);
  if (!element) throw new Error(`the page has no ${name}`);
  return element;
}

// --- live picture: one request under way, the newest position waits ---------------------------------------------

/** @type {WebSocket | null} */
let socket = null;
let busy = false;
/** @type {object | null} */
let waiting = null;
let sequence = 0;
let shown = 0;
/** Whether the line of messages holds a refusal of the live picture. */
let refused = false;
/** Time from the pointer to the drawn picture of the last moves, ms; tests read it.
 * @type {number[]} */
const times = [];
/** @type {Map<number, number>} */
const sent = new Map();

function connect() {
  const scheme = location.protocol === "https:" ? "wss" : "ws";
  const live = new WebSocket(`${scheme}://${location.host}/api/v1/designs/${id}/live?window=${window_mark}`);
  socket = live;
  live.onopen = () => {
    busy = false;
    setConnected(true);
    send([]);
  };
  live.onclose = () => {
    if (socket !== live) return;
    socket = null;
    busy = false;
    setConnected(false);
    setTimeout(connect, 1000);
  };
  live.onmessage = (event) => {
    const answer = JSON.parse(event.data);
    if (answer.kind === "changed") {
      if (answer.window !== window_mark) newRevision(answer.revision, true);
      return;
    }
    busy = false;
    if (answer.seq > shown) {
      shown = answer.seq;
      if (answer.picture) {
        show(answer.picture);
        // Only what the live picture said is taken back: that a change was not saved stays to be read.
        if (refused) say("");
        refused = false;
      } else if (answer.errors) {
        refused = true;
        say(answer.errors.map((/** @type {any} */ e) => sentence(e)).join("\n"), "error");
      }
      const start = sent.get(answer.seq);
      if (start !== undefined) {
        sent.delete(answer.seq);
        requestAnimationFrame(() => {
          times.push(performance.now() - start);
          if (times.length > 500) times.shift();
          root.dataset.frames = String(times.length);
          root.dataset.p95 = percentile(times, 0.95).toFixed(1);
          root.dataset.server = String(answer.server_ms);
        });
      }
    }
    if (waiting) {
      const next = waiting;
      waiting = null;
      transmit(next);
    }
  };
}

/** @param {number[]} list @param {number} share */
function percentile(list, share) {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
}

/** @param {boolean} connected */
function setConnected(connected) {
  byId("connection").hidden = connected;
}

/** @param {any} e */
export function sentence(e) {
  const allowed = e.allowed ? `; allowed: ${e.allowed}` : "";
  const hint = e.hint ? ` – ${e.hint}` : "";
  const place = e.path ? `${e.path}: ` : "";
  return `${place}${e.message}${allowed}${hint}`;
}

/** @param {{path: string, si: number}[]} edits */
function send(edits) {
  sequence += 1;
  const message = { seq: sequence, revision, edits };
  sent.set(sequence, performance.now());
  if (busy) {
    waiting = message;
    return;
  }
  transmit(message);
}

/** @param {object} message */
function transmit(message) {
  if (socket?.readyState !== WebSocket.OPEN) return;
  busy = true;
  socket.send(JSON.stringify(message));
}

// --- changes ------------------------------------------------------------------------------------------------------

/** @param {Handle} handle @param {number} value SI; NaN repeats the last one @param {boolean} done */
function moved(handle, value, done) {
  if (Number.isFinite(value)) {
    moving = handle;
    pending = [{ path: handle.path, si: value }];
    if (!done) {
      send(pending);
      return;
    }
  }
  if (done && pending.length > 0) {
    const edits = pending;
    pending = [];
    saveEdits(edits, `${moving?.label ?? "value"} moved`);
  }
}

section.onDropped = () => {
  pending = [];
  send([]);
};

/** Saves in order: the next change waits until the one before has its revision. */
let saving = Promise.resolve(true);

/** @param {object[]} edits @param {string} note @returns {Promise<boolean>} */
function saveEdits(edits, note) {
  saving = saving.then(() => saveNow(edits, note));
  return saving;
}

/** @param {object[]} edits @param {string} note @returns {Promise<boolean>} */
async function saveNow(edits, note) {
  const answer = await ask("PATCH", `/api/v1/designs/${id}`, { base: revision, edits, note, window: window_mark });
  if (answer.ok) {
    say("");
    newRevision(answer.body.revision, false);
    return true;
  }
  const words = (answer.body.errors ?? []).map(sentence).join("\n") || "the change could not be saved";
  say(`Not saved: ${words}`, "error");
  refused = false;
  if (answer.status === 409 && answer.body.current) newRevision(answer.body.current, true, `Not saved: ${words}`);
  else send([]);
  return false;
}

/** @param {number} number @param {boolean} foreign @param {string} [before] what the message begins with */
function newRevision(number, foreign, before = "") {
  revision = number;
  root.dataset.revision = String(number);
  byId("revision").textContent = String(number);
  send([]);
  forms.reload();
  checks.stale();
  if (foreign) {
    const words = `Revision ${number} was made in another window; this one follows it.`;
    say(before ? `${before}\n${words}` : words, before ? "error" : "note");
  }
}

/** @param {"undo" | "redo"} word */
async function step(word) {
  const answer = await ask("POST", `/api/v1/designs/${id}/${word}`, { from: revision, window: window_mark });
  if (answer.ok) newRevision(answer.body.revision, false);
  else say((answer.body.errors ?? []).map(sentence).join("\n"), "note");
}

byId("undo").addEventListener("click", () => step("undo"));
byId("redo").addEventListener("click", () => step("redo"));
document.addEventListener("keydown", (event) => {
  const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement || event.target instanceof HTMLSelectElement;
  if (typing) return;
  const key = event.key.toLowerCase();
  if ((event.ctrlKey || event.metaKey) && key === "z") {
    event.preventDefault();
    step(event.shiftKey ? "redo" : "undo");
  } else if ((event.ctrlKey || event.metaKey) && key === "y") {
    event.preventDefault();
    step("redo");
  } else if (key === "+" || key === "=") zoom(0.7);
  else if (key === "-") zoom(1 / 0.7);
  else if (key === "0") whole();
});

// --- drawing ------------------------------------------------------------------------------------------------------

/** @param {Picture} next */
function show(next) {
  picture = next;
  unit = units(next.units);
  range ??= [next.section.from, next.section.to];
  draw();
  checks.show(next);
  root.dataset.verdict = next.verdict;
  byId("verdict").textContent = next.sentence;
  byId("verdict").dataset.status = next.verdict;
  const name = byId("name");
  if (name.textContent !== next.name) name.textContent = next.name;
  byId("no-handles").hidden = next.handles.length > 0;
}

function draw() {
  if (!picture || !range) return;
  section.draw(picture, range, unit);
  strips.draw(picture.strips, range, unit);
  plan.draw(picture, unit);
  cross.draw(picture, unit);
}

/** @param {number} factor @param {number} [about] chainage that stays in place */
function zoom(factor, about) {
  if (!picture || !range) return;
  const [from, to] = range;
  const middle = about ?? (from + to) / 2;
  const s = picture.section;
  const span = Math.min(Math.max((to - from) * factor, 5), s.to - s.from);
  let left = middle - (middle - from) * (span / (to - from));
  left = Math.min(Math.max(left, s.from), s.to - span);
  range = [left, left + span];
  draw();
}

function whole() {
  if (!picture) return;
  range = [picture.section.from, picture.section.to];
  draw();
}

byId("closer").addEventListener("click", () => zoom(0.7));
byId("wider").addEventListener("click", () => zoom(1 / 0.7));
byId("whole").addEventListener("click", whole);
byId("section").addEventListener("wheel", (event) => {
  if (!event.ctrlKey && !event.shiftKey) return;
  event.preventDefault();
  const box = byId("section").getBoundingClientRect();
  zoom(event.deltaY > 0 ? 1 / 0.85 : 0.85, section.x.back(event.clientX - box.left));
}, { passive: false });

// Dragging beside the handles moves the view along the chainage.
/** @type {{at: number, range: [number, number]} | null} */
let pan = null;
byId("section").addEventListener("pointerdown", (event) => {
  if (range) pan = { at: event.clientX, range };
});
addEventListener("pointerup", () => { pan = null; });

/** @type {number | null} */
let pointed = null;
for (const place of [byId("section"), byId("strips")]) {
  place.addEventListener("pointermove", (event) => {
    const box = byId("section").getBoundingClientRect();
    if (pan && picture && range && section.held === null) {
      const s = picture.section;
      const per = (pan.range[1] - pan.range[0]) / Math.max(section.x.end - section.x.start, 1);
      const shift = Math.min(Math.max((pan.at - event.clientX) * per, s.from - pan.range[0]), s.to - pan.range[1]);
      if (pan.range[1] - pan.range[0] < s.to - s.from - 1e-6) {
        range = [pan.range[0] + shift, pan.range[1] + shift];
        draw();
      }
    }
    point(section.x.back(event.clientX - box.left));
  });
  place.addEventListener("pointerleave", () => point(null));
}
byId("section").addEventListener("keydown", (event) => {
  if (event.target !== byId("section") || !range) return;
  const step = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
  if (step === 0) return;
  event.preventDefault();
  point((pointed ?? (range[0] + range[1]) / 2) + (step * (range[1] - range[0])) / 100);
});

/** @param {number | null} chainage */
function point(chainage) {
  if (!range || (chainage !== null && (chainage < range[0] || chainage > range[1]))) chainage = null;
  pointed = chainage;
  section.showCrosshair(chainage);
  strips.showCrosshair(chainage, unit);
  plan.showCrosshair(chainage);
  const metre = unit("m");
  byId("place").textContent = chainage === null
    ? ""
    : `chainage ${(chainage * metre.factor).toFixed(1)} ${metre.symbol}, axis at ${(section.levelAt(chainage) * metre.factor).toFixed(2)} ${metre.symbol}`;
}

checks.onPlace = point;
new ResizeObserver(draw).observe(byId("section"));
addEventListener("beforeprint", draw);

// Tabs of the lower panel.
for (const tab of document.querySelectorAll("[role=tab]")) {
  tab.addEventListener("click", () => choose(/** @type {HTMLElement} */ (tab)));
  tab.addEventListener("keydown", (event) => {
    const key = /** @type {KeyboardEvent} */ (event).key;
    if (key !== "ArrowRight" && key !== "ArrowLeft") return;
    const tabs = [...document.querySelectorAll("[role=tab]")];
    const next = tabs[(tabs.indexOf(tab) + (key === "ArrowRight" ? 1 : tabs.length - 1)) % tabs.length];
    choose(/** @type {HTMLElement} */ (next));
    /** @type {HTMLElement} */ (next).focus();
  });
}

/** @param {HTMLElement} tab */
function choose(tab) {
  for (const other of document.querySelectorAll("[role=tab]")) {
    const chosen = other === tab;
    other.setAttribute("aria-selected", String(chosen));
    /** @type {HTMLElement} */ (other).tabIndex = chosen ? 0 : -1;
    byId(other.getAttribute("aria-controls") ?? "").hidden = !chosen;
  }
  draw();
}

connect();
forms.reload();
