// @ts-check
/** Strip charts on the chainage axis of the section. */
import { el, html, number, path, scale, ticks, valueAt } from "./draw.js";
import { MARGIN } from "./section.js";

/** @typedef {import("./types").Strip} Strip */
/** @typedef {ReturnType<typeof import("./draw.js").units>} Units */

const HEIGHT = 128;
const TOP = 10;
const BOTTOM = 8;

export class Strips {
  /** @param {HTMLElement} place */
  constructor(place) {
    this.place = place;
    /** @type {Map<string, {figure: HTMLElement, svg: SVGElement, line: SVGElement, readout: HTMLElement, strip: Strip, x: import("./draw.js").Scale}>} */
    this.charts = new Map();
  }

  /** @param {Strip[]} strips @param {[number, number]} range @param {Units} unit */
  draw(strips, range, unit) {
    const width = this.place.clientWidth || 900;
    const seen = new Set();
    strips.forEach((strip, index) => {
      const key = `${strip.id}-${strips.slice(0, index).filter((s) => s.id === strip.id).length}`;
      seen.add(key);
      let chart = this.charts.get(key);
      if (!chart) {
        const svg = el("svg", { class: "strip", role: "img" });
        const readout = html("output", { class: "readout" });
        const caption = html("figcaption", {}, [html("span"), readout]);
        const figure = html("figure", { class: "strip-figure", id: `strip-${key}` }, [caption, svg]);
        this.place.append(figure);
        const line = el("line", { class: "crosshair", y1: 0, y2: HEIGHT, visibility: "hidden" });
        chart = { figure, svg, line, readout, strip, x: scale(0, 1, 0, 1) };
        this.charts.set(key, chart);
      }
      chart.strip = strip;
      const shown = unit(strip.unit);
      const name = `${strip.title}, ${shown.symbol}`;
      const caption = chart.figure.querySelector("figcaption > span");
      if (caption && caption.textContent !== name) caption.textContent = name;
      chart.svg.setAttribute("viewBox", `0 0 ${width} ${HEIGHT}`);
      chart.svg.setAttribute("aria-label", describe(strip, unit));
      chart.x = scale(range[0], range[1], MARGIN.left, width - MARGIN.right);
      chart.svg.replaceChildren(drawStrip(strip, chart.x, width, unit, key), chart.line);
    });
    for (const [key, chart] of this.charts) {
      if (!seen.has(key)) {
        chart.figure.remove();
        this.charts.delete(key);
      }
    }
  }

  /** @param {number | null} chainage @param {Units} unit */
  showCrosshair(chainage, unit) {
    for (const chart of this.charts.values()) {
      chart.line.setAttribute("visibility", chainage === null ? "hidden" : "visible");
      if (chainage === null) {
        chart.readout.textContent = "";
        continue;
      }
      const at = chart.x.at(chainage).toFixed(1);
      chart.line.setAttribute("x1", at);
      chart.line.setAttribute("x2", at);
      const shown = unit(chart.strip.unit);
      const parts = [];
      for (const curve of chart.strip.curves) {
        const value = valueAt(curve.points, chainage);
        if (value !== null) parts.push(`${curve.name} ${digits(value * shown.factor)}`);
      }
      chart.readout.textContent = parts.join(" · ");
    }
  }
}

/** @param {number} value */
function digits(value) {
  const size = Math.abs(value);
  const decimals = size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3;
  return value.toFixed(decimals).replace("-", "−");
}

/** @param {Strip} strip @param {Units} unit */
function describe(strip, unit) {
  const shown = unit(strip.unit);
  const parts = strip.curves.map((curve) => {
    const values = curve.points.map((p) => p[1] * shown.factor);
    return `${curve.name} from ${digits(Math.min(...values))} to ${digits(Math.max(...values))} ${shown.symbol}`;
  });
  const limits = strip.limits.map(([name, value]) => `limit ${name} ${digits(value * shown.factor)} ${shown.symbol}`);
  return `${strip.title}: ${[...parts, ...limits].join("; ")}`;
}

/** @param {Strip} strip @param {import("./draw.js").Scale} x @param {number} width @param {Units} unit @param {string} key */
function drawStrip(strip, x, width, unit, key) {
  const shown = unit(strip.unit);
  const values = strip.curves.flatMap((c) => (c.role === "allowed" ? [] : c.points.map((p) => p[1])));
  const greatest = Math.max(...values, 0);
  const limits = strip.limits.map((l) => l[1]);
  const allowed = strip.curves.filter((c) => c.role === "allowed").flatMap((c) => c.points.map((p) => p[1]));
  // A limit far above the curve is told in words, so that the curve stays readable.
  const near = [...limits, ...allowed].filter((v) => v <= 2.2 * greatest);
  const high = Math.max(greatest, ...near) * 1.08 || 1;
  const low = Math.min(...values, 0);
  const y = scale(low, high, HEIGHT - BOTTOM, TOP);
  const group = el("g", {});
  const clip = `clip-${key}`;
  group.append(el("clipPath", { id: clip }, [
    el("rect", { x: x.start, y: 0, width: Math.max(x.end - x.start, 1), height: HEIGHT }),
  ]));
  const list = ticks(low * shown.factor, high * shown.factor, 4);
  const step = list.length > 1 ? list[1] - list[0] : 1;
  for (const value of list) {
    const at = y.at(value / shown.factor);
    group.append(
      el("line", { x1: x.start, x2: x.end, y1: at, y2: at, class: "grid" }),
      el("text", { x: x.start - 6, y: at + 4, class: "tick", "text-anchor": "end" }, [number(value, step)]),
    );
  }
  const body = el("g", { "clip-path": `url(#${clip})` });
  for (const curve of strip.curves) {
    body.append(el("path", { d: path(curve.points, x, y), class: `curve ${curve.role}` }));
  }
  group.append(body);
  /** @type {string[]} */
  const names = [];
  strip.limits.forEach(([name, value]) => {
    const label = `${name} ${digits(value * shown.factor)}`;
    if (value <= high) {
      group.append(el("line", { x1: x.start, x2: x.end, y1: y.at(value), y2: y.at(value), class: "limit" }));
      group.append(el("text", { x: x.end - 4, y: y.at(value) - 3, class: "limit-name", "text-anchor": "end" }, [label]));
    } else names.push(`${label} ↑`);
  });
  if (names.length) {
    group.append(el("text", { x: x.end - 4, y: TOP + 4, class: "limit-name", "text-anchor": "end" }, [names.join("   ")]));
  }
  return group;
}
