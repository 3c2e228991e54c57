// @ts-check
/** The list of checks, the tightest first; each opens its working. */
import { html } from "./draw.js";

const SIGNS = { pass: "✓", attention: "!", fail: "✕", "not-assessed": "?" };
const WORDS = { pass: "met", attention: "attention", fail: "not met", "not-assessed": "not assessed" };

export class Checks {
  /** @param {HTMLElement} place @param {number} design */
  constructor(place, design) {
    this.place = place;
    this.design = design;
    /** @type {Map<string, HTMLDetailsElement>} */
    this.rows = new Map();
    /** @type {(chainage: number | null) => void} */
    this.onPlace = () => {};
  }

  /** @param {import("./types").Picture} picture */
  show(picture) {
    const list = picture.checks;
    const seen = new Set();
    list.forEach((check, index) => {
      seen.add(check.id);
      let row = this.rows.get(check.id);
      if (!row) {
        row = this.make(check.id);
        this.rows.set(check.id, row);
      }
      row.dataset.status = check.status;
      const set = (/** @type {string} */ name, /** @type {string} */ words) => {
        const cell = row?.querySelector(`.${name}`);
        if (cell && cell.textContent !== words) cell.textContent = words;
      };
      set("sign", SIGNS[check.status]);
      set("word", WORDS[check.status]);
      set("title", check.title);
      set("used", check.rule || !check.used ? "" : check.used);
      const compared = check.value && check.limit ? `${check.value} ${check.sense} ${check.limit}` : check.value ?? "";
      set("values", compared);
      set("because", check.because);
      const bar = /** @type {SVGElement | null} */ (row.querySelector(".bar rect"));
      const share = check.rule || check.utilisation === null ? 0 : Math.min(check.utilisation, 1.25) / 1.25;
      bar?.setAttribute("width", String(100 * share));
      row.dataset.at = check.at === null ? "" : String(check.at);
      // Only move a row that is out of order: an open one keeps its focus.
      if (this.place.children[index] !== row) this.place.insertBefore(row, this.place.children[index] ?? null);
    });
    for (const [id, row] of this.rows) {
      if (!seen.has(id)) {
        row.remove();
        this.rows.delete(id);
      }
    }
  }

  /** @param {string} id */
  make(id) {
    const bar = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    bar.setAttribute("viewBox", "0 0 100 6");
    bar.setAttribute("class", "bar");
    bar.setAttribute("aria-hidden", "true");
    bar.setAttribute("preserveAspectRatio", "none");
    const rect = document.createElementNS("http://www.w3.org/2000/svg", "rect");
    rect.setAttribute("height", "6");
    const limit = document.createElementNS("http://www.w3.org/2000/svg", "line");
    for (const [key, value] of Object.entries({ x1: 80, x2: 80, y1: 0, y2: 6 })) limit.setAttribute(key, String(value));
    bar.append(rect, limit);
    const summary = html("summary", {}, [
      html("span", { class: "sign", "aria-hidden": "true" }),
      html("span", { class: "title" }),
      html("span", { class: "used" }),
      html("span", { class: "word" }),
      html("span", { class: "values" }),
    ]);
    summary.append(bar);
    const working = html("div", { class: "working" });
    const row = /** @type {HTMLDetailsElement} */ (
      html("details", { id: `check-${id}` }, [summary, html("p", { class: "because" }), working])
    );
    row.addEventListener("toggle", () => this.open(row, id, working));
    row.addEventListener("pointerenter", () => this.point(row));
    summary.addEventListener("focus", () => this.point(row));
    return row;
  }

  /** @param {HTMLDetailsElement} row */
  point(row) {
    if (row.dataset.at) this.onPlace(Number(row.dataset.at));
  }

  /** @param {HTMLDetailsElement} row @param {string} id @param {HTMLElement} working */
  async open(row, id, working) {
    if (!row.open || row.dataset.loaded === "yes") return;
    row.dataset.loaded = "yes";
    working.textContent = "…";
    const answer = await fetch(`/designs/${this.design}/checks/${encodeURIComponent(id)}`).catch(() => null);
    if (answer?.ok) {
      // The fragment is made by the program itself, with every text escaped.
      const parsed = new DOMParser().parseFromString(await answer.text(), "text/html");
      working.replaceChildren(...parsed.body.childNodes);
    } else {
      working.textContent = "The working could not be fetched; close and open the check to try again.";
      row.dataset.loaded = "";
    }
  }

  /** Workings that are open no longer fit the design: they are fetched again. */
  stale() {
    for (const [id, row] of this.rows) {
      row.dataset.loaded = "";
      const working = /** @type {HTMLElement | null} */ (row.querySelector(".working"));
      if (row.open && working) this.open(row, id, working);
    }
  }
}

