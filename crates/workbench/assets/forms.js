// @ts-check
/** Every field of the design in forms; what is typed stays until it is saved or taken back by hand. */
import { html } from "./draw.js";
import { ask } from "./server.js";

/**
 * @typedef {{design: number, save: (edits: object[], note: string) => Promise<boolean>, current: () => number}} Desk
 * @typedef {{key: string, path: string, meaning: string, kind: string, unit: string | null, words: {word: string, meaning: string}[],
 *   need: string, fallback: string | null, why: string | null, text: string | null, taken: string | null, allowed: string | null,
 *   columns: string[]}} FieldRow
 * @typedef {{path: string, title: string, meaning: string, entry: boolean, of: string | null, fields: FieldRow[], present: boolean}} SectionRow
 */

export class Forms {
  /** @param {HTMLElement} place @param {Desk} desk */
  constructor(place, desk) {
    this.place = place;
    this.desk = desk;
    /** Texts that were typed and are not saved, by path.
     * @type {Map<string, string>} */
    this.typed = new Map();
    /** @type {Set<string>} */
    this.open = new Set();
    addEventListener("beforeunload", (event) => {
      if (this.typed.size > 0) event.preventDefault();
    });
  }

  /** Fetches the fields of the current revision; what is typed and not saved stays. */
  async reload() {
    const answer = await ask("GET", `/api/v1/designs/${this.desk.design}/fields`);
    if (!answer.ok) return;
    const held = document.activeElement instanceof HTMLElement ? document.activeElement.id : "";
    this.place.replaceChildren(...answer.body.sections.map((/** @type {SectionRow} */ s) => this.section(s)));
    for (const list of answer.body.lists) this.place.append(this.adder(list));
    const again = held ? document.getElementById(held) : null;
    if (again && this.place.contains(again)) again.focus();
  }

  /** @param {SectionRow} s */
  section(s) {
    const body = html("div", { class: "fields" }, s.fields.map((f) => this.field(f)));
    // An entry of a list stands beside others of its kind: its explanation is told once it is open.
    const head = html("summary", {}, [html("span", {}, [s.title]), s.entry ? "" : html("small", {}, [s.meaning])]);
    const box = /** @type {HTMLDetailsElement} */ (html("details", { class: "section", "data-path": s.path }, s.entry ? [head, html("p", { class: "help" }, [s.meaning]), body] : [head, body]));
    box.open = this.open.has(s.path);
    box.addEventListener("toggle", () => (box.open ? this.open.add(s.path) : this.open.delete(s.path)));
    if (s.entry) {
      const button = html("button", { type: "button", class: "remove" }, ["take this out"]);
      button.addEventListener("click", () => this.desk.save([{ path: s.path, remove: true }], `${s.title} taken out`));
      body.append(button);
    }
    return box;
  }

  /** @param {{path: string, title: string, example: Record<string, unknown>}} list */
  adder(list) {
    const button = html("button", { type: "button", class: "add", "data-list": list.path }, [`add: ${list.title}`]);
    button.addEventListener("click", () => {
      this.desk.save([{ path: list.path, append: list.example }], `${list.title} added`);
    });
    return button;
  }

  /** @param {FieldRow} f */
  field(f) {
    const name = `field${f.path.replaceAll("/", "-")}`;
    const now = this.typed.get(f.path) ?? f.text ?? "";
    const input = this.input(f, now);
    input.id = name;
    input.setAttribute("aria-describedby", `${name}-help`);
    const fault = html("p", { class: "fault", id: `${name}-fault`, role: "alert" });
    fault.hidden = true;
    const badge = f.text === null && f.taken !== null
      ? html("span", { class: "badge", title: f.why ?? "" }, [`assumed: ${f.taken}`])
      : html("span", { class: "badge none" });
    const help = [f.meaning, f.allowed ? `allowed: ${f.allowed}` : "", f.need].filter(Boolean).join("; ");
    const row = html("div", { class: `field ${this.typed.has(f.path) ? "unsaved" : ""}` }, [
      html("label", { for: name }, [f.key.replaceAll("_", " "), f.unit ? html("small", {}, [f.unit]) : ""]),
      input,
      badge,
      html("p", { class: "help", id: `${name}-help` }, [help, f.text === null && f.why ? ` (${f.why})` : ""]),
      fault,
    ]);
    input.addEventListener("input", () => {
      this.typed.set(f.path, input.value);
      row.classList.add("unsaved");
    });
    input.addEventListener("change", () => this.change(f, input, row, fault));
    input.addEventListener("keydown", (event) => {
      if (/** @type {KeyboardEvent} */ (event).key !== "Escape") return;
      this.typed.delete(f.path);
      input.value = f.text ?? "";
      row.classList.remove("unsaved");
      input.removeAttribute("aria-invalid");
      fault.hidden = true;
    });
    return row;
  }

  /** @param {FieldRow} f @param {string} now @returns {HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement} */
  input(f, now) {
    if (f.kind === "choice") {
      const select = /** @type {HTMLSelectElement} */ (html("select"));
      const first = html("option", { value: "" }, [f.taken ? `– (${f.taken})` : "–"]);
      select.append(first, ...f.words.map((w) => html("option", { value: w.word, title: w.meaning }, [w.word])));
      select.value = now;
      return select;
    }
    if (f.kind === "rows" || f.kind === "list") {
      const area = /** @type {HTMLTextAreaElement} */ (html("textarea", { rows: f.kind === "rows" ? "4" : "1", spellcheck: "false" }));
      area.value = now;
      return area;
    }
    const input = /** @type {HTMLInputElement} */ (html("input", { type: "text", autocomplete: "off", spellcheck: "false" }));
    if (f.taken) input.placeholder = f.taken;
    if (f.kind === "choice-or-quantity") input.title = f.words.map((w) => w.word).join(", ");
    input.value = now;
    return input;
  }

  /** @param {FieldRow} f @param {HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement} input @param {HTMLElement} row @param {HTMLElement} fault */
  async change(f, input, row, fault) {
    const text = input.value.trim();
    if (text === (f.text ?? "")) {
      this.typed.delete(f.path);
      row.classList.remove("unsaved");
      input.removeAttribute("aria-invalid");
      fault.hidden = true;
      return;
    }
    this.typed.set(f.path, input.value);
    const edit = text === "" ? { path: f.path, remove: true } : { path: f.path, text };
    const tried = await ask("POST", `/api/v1/designs/${this.desk.design}/try`, { base: this.desk.current(), edits: [edit] });
    if (!tried.ok) {
      const errors = tried.body.errors ?? [];
      fault.textContent = errors.map((/** @type {any} */ e) => `${e.message}${e.allowed ? `; allowed: ${e.allowed}` : ""}${e.hint ? ` – ${e.hint}` : ""}`).join("\n");
      fault.hidden = false;
      input.setAttribute("aria-invalid", "true");
      return;
    }
    this.typed.delete(f.path);
    input.removeAttribute("aria-invalid");
    fault.hidden = true;
    row.classList.remove("unsaved");
    const saved = await this.desk.save([edit], `${f.key.replaceAll("_", " ")}: ${f.text ?? "–"} → ${text || "–"}`);
    if (!saved) {
      this.typed.set(f.path, input.value);
      row.classList.add("unsaved");
    }
  }
}
