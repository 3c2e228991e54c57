// @ts-check
/** The long section with its handles. */
import { el, number, path, scale, ticks } from "./draw.js";

/** @typedef {import("./types").Picture} Picture */
/** @typedef {import("./types").Handle} Handle */

const LEFT = 62;
const RIGHT = 14;
const TOP = 26;
const BOTTOM = 22;

/** Width of the margins that section and strips share. */
export const MARGIN = { left: LEFT, right: RIGHT };

export class Section {
  /**
   * @param {SVGSVGElement} svg
   * @param {(handle: Handle, value: number, done: boolean) => void} moved
   */
  constructor(svg, moved) {
    this.svg = svg;
    this.moved = moved;
    this.back = el("g", { "aria-hidden": "true" });
    this.front = el("g", { class: "handles" });
    this.cross = el("line", { class: "crosshair", y1: 0, visibility: "hidden" });
    svg.append(this.back, this.cross, this.front);
    /** @type {Map<string, SVGElement>} */
    this.grips = new Map();
    /** @type {string | null} */
    this.held = null;
    /** A drag was taken away (by the system, or with Escape): nothing of it is kept. */
    this.onDropped = () => {};
    this.x = scale(0, 1, 0, 1);
    this.y = scale(0, 1, 1, 0);
  }

  /**
   * @param {Picture} picture @param {[number, number]} range chainages shown
   * @param {ReturnType<typeof import("./draw.js").units>} unit
   */
  draw(picture, range, unit) {
    const width = this.svg.clientWidth || 900;
    const height = this.svg.clientHeight || 340;
    this.svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
    this.picture = picture;
    const s = picture.section;
    this.x = scale(range[0], range[1], LEFT, width - RIGHT);
    // While a handle is held the levels stay where they are, so that the line moves and not the picture.
    if (this.held === null) this.levels = levels(picture, range);
    const [low, high] = this.levels ?? levels(picture, range);
    this.y = scale(low, high, height - BOTTOM, TOP);
    const { x, y } = this;
    const parts = [];
    const clip = el("clipPath", { id: "section-clip" }, [
      el("rect", { x: LEFT, y: TOP - 8, width: Math.max(width - LEFT - RIGHT, 1), height: height - TOP - BOTTOM + 8 }),
    ]);
    parts.push(el("defs", {}, [clip, ...patterns()]));
    const body = el("g", { "clip-path": "url(#section-clip)" });
    for (const stratum of s.strata) {
      const d = path(stratum.ring, x, y, true);
      body.append(el("path", { d, class: `soil ${stratum.pattern}`, fill: `url(#soil-${stratum.pattern})` }, [
        el("title", {}, [stratum.name]),
      ]));
    }
    labelStrata(body, s.strata, x, y);
    water(body, picture, x, y);
    body.append(el("path", { d: path(s.ground, x, y), class: "ground" }));
    for (const boring of s.borings) {
      const at = x.at(boring.at);
      body.append(
        el("line", { x1: at, x2: at, y1: y.at(boring.top), y2: y.at(boring.end), class: "boring" }),
        text(at + 4, y.at(boring.top) - 14, boring.name, "quiet"),
      );
    }
    const above = el("g", {});
    const rows = new Rows();
    for (const obstacle of s.obstacles) drawObstacle(body, above, rows, obstacle, picture, x, y);
    const band = Math.max(2, (2 * s.radius * (height - TOP - BOTTOM)) / (high - low));
    body.append(
      el("path", { d: path(s.axis, x, y), class: "bore", "stroke-width": band.toFixed(1) }),
      el("path", { d: path(s.axis, x, y), class: "axis" }),
    );
    for (const [tx, ty] of s.tangents) {
      body.append(el("circle", { cx: x.at(tx), cy: y.at(ty), r: 2.4, class: "tangent" }));
    }
    drawSigns(body, picture, x, y);
    const worst = new Map();
    for (const check of picture.checks) {
      if (check.status === "fail" && check.at !== null) worst.set(check.at.toFixed(0), check);
    }
    for (const check of worst.values()) {
      const level = levelAt(s.axis, check.at);
      const [cx, cy] = [x.at(check.at), y.at(level) - 12];
      body.append(el("g", { class: "not-met" }, [
        el("path", { d: `M${cx - 6} ${cy - 10}h12l-6 10z` }),
        el("title", {}, [`${check.title}: not met`]),
      ]));
    }
    parts.push(axes(x, y, width, height, unit), body, above);
    this.back.replaceChildren(...parts);
    this.cross.setAttribute("y2", String(height));
    this.drawHandles(picture.handles, unit);
  }

  /** @param {Handle[]} handles @param {ReturnType<typeof import("./draw.js").units>} unit */
  drawHandles(handles, unit) {
    const seen = new Set();
    const s = this.picture?.section;
    for (const handle of handles) {
      seen.add(handle.id);
      let grip = this.grips.get(handle.id);
      if (!grip) {
        grip = el("g", { class: "handle", tabindex: 0, role: "slider", id: `handle-${handle.id}` }, [
          el("circle", { r: 15, class: "reach" }),
          el("path", { class: "shape" }),
        ]);
        this.front.append(grip);
        this.grips.set(handle.id, grip);
        this.listen(grip, handle.id);
      }
      const level = handle.at[1] ?? (s ? levelAt(s.axis, handle.at[0]) : 0);
      const moves = handle.motion.kind;
      const lift = moves === "chainage" ? 20 : 0;
      grip.setAttribute("transform", `translate(${this.x.at(handle.at[0]).toFixed(1)} ${(this.y.at(level) + lift).toFixed(1)})`);
      grip.querySelector(".shape")?.setAttribute("d", SHAPES[moves]);
      const factor = unit(handle.unit).factor;
      grip.setAttribute("aria-label", handle.label);
      grip.setAttribute("aria-valuenow", (handle.value * factor).toFixed(3));
      grip.setAttribute("aria-valuetext", handle.shown);
      grip.setAttribute("data-motion", moves);
    }
    for (const [id, grip] of this.grips) {
      if (!seen.has(id)) {
        grip.remove();
        this.grips.delete(id);
      }
    }
  }

  /** @param {SVGElement} grip @param {string} id */
  listen(grip, id) {
    const current = () => this.picture?.handles.find((h) => h.id === id);
    grip.addEventListener("pointerdown", (event) => {
      const handle = current();
      if (!handle || event.button !== 0) return;
      event.preventDefault();
      event.stopPropagation();
      grip.setPointerCapture(event.pointerId);
      grip.focus();
      this.held = id;
      this.start = handle;
      grip.classList.add("held");
    });
    grip.addEventListener("pointermove", (event) => {
      if (this.held !== id || !this.start) return;
      const box = this.svg.getBoundingClientRect();
      const at = [this.x.back(event.clientX - box.left), this.y.back(event.clientY - box.top)];
      const lift = this.start.motion.kind === "chainage" ? 20 : 0;
      at[1] = this.y.back(event.clientY - box.top - lift);
      const value = snapped(valueOf(this.start, at), this.start.step);
      if (Number.isFinite(value)) this.moved(this.start, value, false);
    });
    const release = (/** @type {PointerEvent} */ event) => {
      if (this.held !== id) return;
      this.held = null;
      grip.classList.remove("held");
      const handle = this.start;
      if (event.type === "pointerup" && handle) this.moved(handle, NaN, true);
      else this.onDropped();
    };
    grip.addEventListener("pointerup", release);
    grip.addEventListener("pointercancel", release);
    grip.addEventListener("keydown", (event) => {
      if (event.key === "Escape" && this.held === id) {
        this.held = null;
        grip.classList.remove("held");
        this.onDropped();
        return;
      }
      const handle = current();
      const step = STEPS[event.key];
      if (!handle || step === undefined) return;
      event.preventDefault();
      const size = event.shiftKey ? 10 : 1;
      const value = snapped(handle.value, handle.step) + step * size * handle.step;
      this.moved(handle, value, true);
    });
  }

  /** Level of the axis. @param {number} chainage */
  levelAt(chainage) {
    return this.picture ? levelAt(this.picture.section.axis, chainage) : 0;
  }

  /** @param {number | null} chainage */
  showCrosshair(chainage) {
    this.cross.setAttribute("visibility", chainage === null ? "hidden" : "visible");
    if (chainage === null) return;
    const at = this.x.at(chainage).toFixed(1);
    this.cross.setAttribute("x1", at);
    this.cross.setAttribute("x2", at);
  }
}

/** @type {Record<string, number>} */
const STEPS = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 10, PageDown: -10 };

/** @type {Record<string, string>} */
const SHAPES = {
  angle: "M-7 0A7 7 0 1 1 7 0A7 7 0 1 1 -7 0Z",
  level: "M0-9L6-1H-6ZM0 9L6 1H-6Z",
  chainage: "M-9 0L-1-6V6ZM9 0L1-6V6Z",
  radius: "M-6-6H6V6H-6Z",
};

/**
 * What a pointer at chainage and level means for a handle, SI.
 * @param {Handle} handle @param {number[]} at
 */
export function valueOf(handle, at) {
  const motion = handle.motion;
  if (motion.kind === "angle") {
    return Math.atan2(motion.pivot[1] - at[1], Math.abs(at[0] - motion.pivot[0]));
  }
  if (motion.kind === "level") return at[1];
  if (motion.kind === "chainage") return at[0];
  const [cx, cy] = motion.corner;
  const gap = (at[0] - cx) * motion.inwards[0] + (at[1] - cy) * motion.inwards[1];
  return gap / (1 / Math.cos(motion.half_turn) - 1);
}

/** @param {number} value @param {number} step */
export function snapped(value, step) {
  return Math.round(value / step) * step;
}

/** @param {number[][]} axis @param {number} at */
export function levelAt(axis, at) {
  for (let i = 1; i < axis.length; i += 1) {
    const [x0, z0] = axis[i - 1];
    const [x1, z1] = axis[i];
    if (at <= x1) return x1 === x0 ? z1 : z0 + ((at - x0) / (x1 - x0)) * (z1 - z0);
  }
  return axis.length ? axis[axis.length - 1][1] : 0;
}

/** @param {Picture} picture @param {[number, number]} range @returns {[number, number]} */
function levels(picture, range) {
  const s = picture.section;
  const inside = [...s.ground, ...s.axis].filter((p) => p[0] >= range[0] && p[0] <= range[1]);
  const all = (inside.length ? inside : s.axis).map((p) => p[1]);
  if (s.free_water !== null) all.push(s.free_water);
  const low = Math.min(...all);
  const high = Math.max(...all);
  const room = Math.max(0.12 * (high - low), 1);
  // Names of obstacles stand above the ground.
  return [low - room, high + room * (s.obstacles.length > 0 ? 1.8 : 1)];
}

/** @param {number} x @param {number} y @param {string} words @param {string} kind @param {string} [anchor] */
function text(x, y, words, kind, anchor = "start") {
  return el("text", { x: x.toFixed(1), y: y.toFixed(1), class: kind, "text-anchor": anchor }, [words]);
}

function patterns() {
  const tile = (/** @type {string} */ id, /** @type {number} */ size, /** @type {string} */ d) =>
    el("pattern", { id: `soil-${id}`, width: size, height: size, patternUnits: "userSpaceOnUse" }, [
      el("rect", { width: size, height: size, class: `soil-ground ${id}` }),
      el("path", { d, class: "soil-mark" }),
    ]);
  return [
    tile("clay", 12, "M0 4H7M5 10H12"),
    tile("silt", 12, "M1 4H4M8 4h.8M2 10h.8M6 10H10"),
    tile("sand", 10, "M2 3h.9M7 7h.9M5 1h.9"),
    tile("gravel", 14, "M3 4a2 2 0 1 1 .1 0M10 10a2.4 2.4 0 1 1 .1 0"),
    tile("peat", 12, "M2 3q2 3 4 0M7 9q2 3 4 0"),
    tile("fill", 12, "M2 3l3 3M9 2l-2 4M4 10l3-1"),
    tile("rock", 14, "M0 7L7 0M7 14L14 7"),
  ];
}

/** @param {SVGElement} body @param {import("./types").Stratum[]} strata @param {import("./draw.js").Scale} x @param {import("./draw.js").Scale} y */
function labelStrata(body, strata, x, y) {
  const named = new Set();
  for (const stratum of strata) {
    const half = stratum.ring.length / 2;
    const middle = Math.floor(half / 2);
    const top = stratum.ring[middle];
    const base = stratum.ring[stratum.ring.length - 1 - middle];
    const room = Math.abs(y.at(top[1]) - y.at(base[1]));
    const width = x.at(stratum.ring[half - 1][0]) - x.at(stratum.ring[0][0]);
    if (room < 15 || width < stratum.name.length * 7 || named.has(stratum.name)) continue;
    named.add(stratum.name);
    body.append(text(x.at(top[0]), (y.at(top[1]) + y.at(base[1])) / 2 + 4, stratum.name, "soil-name", "middle"));
  }
}

/** @param {SVGElement} body @param {Picture} picture @param {import("./draw.js").Scale} x @param {import("./draw.js").Scale} y */
function water(body, picture, x, y) {
  const s = picture.section;
  if (s.free_water !== null) {
    /** @type {number[][]} */
    let ring = [];
    const close = () => {
      if (ring.length > 2) {
        body.append(el("path", { d: path(ring, x, y, true), class: "free-water" }));
      }
      ring = [];
    };
    const level = s.free_water;
    for (let i = 0; i < s.ground.length; i += 1) {
      const point = s.ground[i];
      const before = s.ground[i - 1];
      if (before && before[1] > level !== point[1] > level) {
        const share = (level - before[1]) / (point[1] - before[1]);
        ring.push([before[0] + share * (point[0] - before[0]), level]);
        if (point[1] > level) close();
      }
      if (point[1] <= level) ring.push(point);
    }
    close();
  }
  if (s.groundwater !== null) {
    body.append(
      el("line", { x1: x.start, x2: x.end, y1: y.at(s.groundwater), y2: y.at(s.groundwater), class: "groundwater" }),
      text(x.start + 6, y.at(s.groundwater) - 5, "groundwater", "water-name"),
    );
  }
}

/** Names side by side in as few rows as they need. */
class Rows {
  constructor() {
    /** @type {number[]} */
    this.ends = [];
  }

  /** The row for a name between two pixels. @param {number} from @param {number} to */
  take(from, to) {
    let row = this.ends.findIndex((end) => from > end + 8);
    if (row < 0) row = this.ends.length;
    this.ends[row] = to;
    return row;
  }
}

/** @param {SVGElement} body @param {SVGElement} above @param {Rows} rows @param {import("./types").Obstacle} o @param {Picture} picture @param {import("./draw.js").Scale} x @param {import("./draw.js").Scale} y */
function drawObstacle(body, above, rows, o, picture, x, y) {
  const check = picture.checks.find((c) => c.id === o.check);
  const kind = `obstacle ${check ? check.status : ""}`;
  const [left, right] = [x.at(o.from), x.at(o.to)];
  if (o.diameter !== null) {
    const rx = Math.max(Math.abs(x.at(o.diameter / 2) - x.at(0)), 3);
    const ry = Math.max(Math.abs(y.at(o.diameter / 2) - y.at(0)), 3);
    const beside = o.to - o.from > 2 * o.diameter;
    body.append(beside
      ? el("rect", { x: left, y: y.at(o.level) - ry, width: right - left, height: 2 * ry, class: `${kind} beside` })
      : el("ellipse", { cx: (left + right) / 2, cy: y.at(o.level), rx, ry, class: kind }));
    body.append(text((left + right) / 2, y.at(o.level) - ry - 5, o.name, "name", "middle"));
    return;
  }
  if (o.clearance !== null) {
    const depth = Math.abs(y.at(o.clearance) - y.at(0));
    body.append(el("rect", { x: left, y: y.at(o.level), width: right - left, height: depth, class: `clearance ${check ? check.status : ""}` }));
  }
  body.append(el("line", { x1: left, x2: right, y1: y.at(o.level), y2: y.at(o.level), class: kind }));
  const middle = Math.min(Math.max((left + right) / 2, x.start), x.end);
  if (right < x.start || left > x.end) return;
  const words = o.name.length > 34 ? `${o.name.slice(0, 33)}…` : o.name;
  const half = words.length * 3.4;
  const foot = 14 + 16 * rows.take(middle - half, middle + half);
  above.append(
    el("line", { x1: middle, x2: middle, y1: foot + 3, y2: y.at(o.level), class: "guide" }),
    el("g", {}, [text(middle, foot, words, "name", "middle"), el("title", {}, [o.name])]),
  );
}

/** @param {SVGElement} body @param {Picture} picture @param {import("./draw.js").Scale} x @param {import("./draw.js").Scale} y */
function drawSigns(body, picture, x, y) {
  const s = picture.section;
  for (const sign of s.signs) {
    const at = x.at(sign.at);
    const axis = y.at(levelAt(s.axis, sign.at));
    const top = y.at(levelAt(s.ground, sign.at));
    const pit = sign.kind.endsWith("pit");
    const shape = pit
      ? el("path", { d: `M${at - 9} ${top}V${axis + 8}H${at + 9}V${top}`, class: "pit" })
      : sign.kind === "service"
        ? el("path", { d: `M${at} ${axis}V${axis - 14}`, class: "service" })
        : el("path", { d: `M${at - 5} ${axis - 5}L${at + 5} ${axis + 5}M${at + 5} ${axis - 5}L${at - 5} ${axis + 5}`, class: "feature" });
    body.append(el("g", {}, [shape, el("title", {}, [sign.label])]));
    if (pit) body.append(text(at, top - 6, sign.kind === "launch-pit" ? "launch" : "machine", "name", "middle"));
    else if (sign.kind !== "service") body.append(text(at, axis + 24, sign.label.split(":")[0], "quiet", "middle"));
  }
}

/**
 * @param {import("./draw.js").Scale} x @param {import("./draw.js").Scale} y @param {number} width @param {number} height
 * @param {ReturnType<typeof import("./draw.js").units>} unit
 */
function axes(x, y, width, height, unit) {
  const metre = unit("m");
  const group = el("g", { class: "axes" });
  const list = ticks(y.from * metre.factor, y.to * metre.factor, height / 50);
  const step = list.length > 1 ? list[1] - list[0] : 1;
  for (const value of list) {
    const at = y.at(value / metre.factor);
    group.append(
      el("line", { x1: LEFT, x2: width - RIGHT, y1: at, y2: at, class: "grid" }),
      text(LEFT - 6, at + 4, number(value, step), "tick", "end"),
    );
  }
  group.append(text(4, 14, `level, ${metre.symbol}`, "axis-name"));
  chainageTicks(group, x, height, unit);
  return group;
}

/** Ticks along the chainage at the foot of a picture.
 * @param {SVGElement} group @param {import("./draw.js").Scale} x @param {number} height
 * @param {ReturnType<typeof import("./draw.js").units>} unit @param {boolean} [named] */
export function chainageTicks(group, x, height, unit, named = true) {
  const metre = unit("m");
  const list = ticks(x.from * metre.factor, x.to * metre.factor, (x.end - x.start) / 80);
  const step = list.length > 1 ? list[1] - list[0] : 1;
  for (const value of list) {
    const at = x.at(value / metre.factor);
    group.append(el("line", { x1: at, x2: at, y1: TOP - 8, y2: height - BOTTOM + 4, class: "grid" }));
    if (named) group.append(text(at, height - 6, number(value, step), "tick", "middle"));
  }
  if (named) group.append(text(4, height - 6, `ch., ${metre.symbol}`, "axis-name"));
}
