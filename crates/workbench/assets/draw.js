// @ts-check
/** SVG elements, scales and numbers: what all drawing on the pages shares. */

const SVG = "http://www.w3.org/2000/svg";

/**
 * An SVG element with attributes and children; text children are set as text, never as markup.
 * @param {string} name
 * @param {Record<string, string | number>} [attributes]
 * @param {(Node | string)[]} [children]
 * @returns {SVGElement}
 */
export function el(name, attributes = {}, children = []) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.append(...children);
  return element;
}

/**
 * An HTML element with attributes and children.
 * @param {string} name
 * @param {Record<string, string>} [attributes]
 * @param {(Node | string)[]} [children]
 * @returns {HTMLElement}
 */
export function html(name, attributes = {}, children = []) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...children);
  return element;
}

/**
 * A straight scale from values to pixels and back.
 * @param {number} from @param {number} to @param {number} start @param {number} end
 */
export function scale(from, to, start, end) {
  const span = to - from || 1;
  const to_pixel = (/** @type {number} */ v) => start + ((v - from) / span) * (end - start);
  const to_value = (/** @type {number} */ p) => from + ((p - start) / (end - start)) * span;
  return { from, to, start, end, at: to_pixel, back: to_value };
}
/** @typedef {ReturnType<typeof scale>} Scale */

/**
 * Round values between two ends, about `count` of them.
 * @param {number} from @param {number} to @param {number} count
 * @returns {number[]}
 */
export function ticks(from, to, count) {
  const raw = (to - from) / Math.max(count, 1);
  if (!(raw > 0) || !Number.isFinite(raw)) return [from];
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= raw * 0.999) ?? 10 * power;
  const list = [];
  for (let k = Math.ceil(from / step - 1e-9); k * step <= to + step * 1e-9; k += 1) list.push(k * step);
  return list;
}

/**
 * A number for an axis or a readout: as many digits as the step needs.
 * @param {number} value @param {number} step
 */
export function number(value, step) {
  const decimals = Math.min(6, Math.max(0, Math.ceil(-Math.log10(Math.abs(step) || 1) - 1e-9)));
  const text = value.toFixed(decimals);
  return text.replace(/^-(0(\.0*)?)$/, "$1").replace("-", "−");
}

/**
 * The path of a line through points.
 * @param {number[][]} points @param {Scale} x @param {Scale} y @param {boolean} [closed]
 */
export function path(points, x, y, closed = false) {
  let d = "";
  for (const point of points) {
    d += `${d === "" ? "M" : "L"}${x.at(point[0]).toFixed(1)} ${y.at(point[1]).toFixed(1)}`;
  }
  return closed ? `${d}Z` : d;
}

/**
 * The value of a curve at a chainage; `null` outside it.
 * @param {number[][]} points @param {number} at
 */
export function valueAt(points, at) {
  for (let i = 1; i < points.length; i += 1) {
    const [x0, v0] = points[i - 1];
    const [x1, v1] = points[i];
    if (at >= Math.min(x0, x1) && at <= Math.max(x0, x1)) {
      return x1 === x0 ? v1 : v0 + ((at - x0) / (x1 - x0)) * (v1 - v0);
    }
  }
  return null;
}

/**
 * Units of the reader, by SI unit.
 * @param {{si: string, symbol: string, factor: number}[]} list
 */
export function units(list) {
  const known = new Map(list.map((u) => [u.si, u]));
  return (/** @type {string} */ si) => known.get(si) ?? { si, symbol: si, factor: 1 };
}
