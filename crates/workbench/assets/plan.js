// @ts-check
/** The line in plan, north up, to one scale. */
import { el, number, scale, ticks } from "./draw.js";

export class Plan {
  /** @param {SVGSVGElement} svg */
  constructor(svg) {
    this.svg = svg;
    this.back = el("g");
    this.mark = el("circle", { r: 5, class: "crosshair-point", visibility: "hidden" });
    svg.append(this.back, this.mark);
  }

  /** @param {import("./types").Picture} picture @param {ReturnType<typeof import("./draw.js").units>} unit */
  draw(picture, unit) {
    const width = this.svg.clientWidth;
    const height = this.svg.clientHeight;
    const plan = picture.plan;
    if (!plan || width < 50) {
      this.plan = null;
      this.back.replaceChildren();
      return;
    }
    this.plan = plan;
    this.svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
    const all = [...plan.axis.map((p) => [p[0], p[1]]), ...plan.borings.map((b) => [b[1], b[2]])];
    const xs = all.map((p) => p[0]);
    const ys = all.map((p) => p[1]);
    const [west, east, south, north] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    const room = 44;
    const metres = Math.max((east - west) / (width - 2 * room), (north - south) / (height - 2 * room), 0.01);
    const [cx, cy] = [(east + west) / 2, (north + south) / 2];
    this.x = scale(cx - (metres * width) / 2, cx + (metres * width) / 2, 0, width);
    this.y = scale(cy - (metres * height) / 2, cy + (metres * height) / 2, height, 0);
    const { x, y } = this;
    const parts = [];
    const metre = unit("m");
    const list = ticks(x.from * metre.factor, x.to * metre.factor, width / 110);
    const step = list.length > 1 ? list[1] - list[0] : 1;
    for (const value of list) {
      const at = x.at(value / metre.factor);
      parts.push(el("line", { x1: at, x2: at, y1: 0, y2: height, class: "grid" }));
      parts.push(el("text", { x: at + 3, y: height - 5, class: "tick" }, [number(value, step)]));
    }
    for (const value of ticks(y.from * metre.factor, y.to * metre.factor, height / 110)) {
      const at = y.at(value / metre.factor);
      parts.push(el("line", { x1: 0, x2: width, y1: at, y2: at, class: "grid" }));
      parts.push(el("text", { x: 3, y: at - 3, class: "tick" }, [number(value, step)]));
    }
    const points = plan.axis.map((p) => [x.at(p[0]), y.at(p[1])]);
    for (const [name, from, to] of plan.crossings) {
      const a = this.place(from);
      const b = this.place(to);
      const middle = this.place((from + to) / 2);
      if (!a || !b || !middle) continue;
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
      const [nx, ny] = this.normal((from + to) / 2);
      const reach = 34;
      const w = Math.max(length, 3);
      parts.push(el("line", {
        x1: middle[0] + nx * reach, y1: middle[1] + ny * reach, x2: middle[0] - nx * reach, y2: middle[1] - ny * reach,
        class: "crossing", "stroke-width": w.toFixed(1),
      }));
      parts.push(el("text", {
        x: middle[0] + nx * (reach + 6), y: middle[1] + ny * (reach + 6), class: "name", "text-anchor": nx > 0.3 ? "start" : nx < -0.3 ? "end" : "middle",
      }, [name]));
    }
    const d = points.map((p, i) => `${i ? "L" : "M"}${p[0].toFixed(1)} ${p[1].toFixed(1)}`).join("");
    parts.push(el("path", { d, class: "bore", "stroke-width": 5 }), el("path", { d, class: "axis" }));
    for (const [name, e, n] of plan.borings) {
      parts.push(el("circle", { cx: x.at(e), cy: y.at(n), r: 4, class: "boring-top" }));
      parts.push(el("text", { x: x.at(e) + 7, y: y.at(n) + 4, class: "quiet" }, [name]));
    }
    const [first, last] = [points[0], points[points.length - 1]];
    parts.push(el("text", { x: first[0], y: first[1] - 10, class: "name", "text-anchor": "middle" }, ["entry, rig side"]));
    parts.push(el("text", { x: last[0], y: last[1] - 10, class: "name", "text-anchor": "middle" }, ["exit, pipe side"]));
    parts.push(el("path", { d: `M${width - 24} 38V14M${width - 24} 10l-5 10h10z`, class: "north" }));
    parts.push(el("text", { x: width - 24, y: 52, class: "name", "text-anchor": "middle" }, ["grid north"]));
    parts.push(el("text", { x: 6, y: 14, class: "axis-name" }, [`east and north from the entry point, ${metre.symbol}`]));
    this.back.replaceChildren(...parts);
  }

  /** @param {number} chainage @returns {[number, number] | null} */
  place(chainage) {
    const axis = this.plan?.axis;
    if (!axis || !this.x || !this.y) return null;
    for (let i = 1; i < axis.length; i += 1) {
      if (chainage <= axis[i][2] || i === axis.length - 1) {
        const [a, b] = [axis[i - 1], axis[i]];
        const share = (chainage - a[2]) / (b[2] - a[2] || 1);
        return [this.x.at(a[0] + share * (b[0] - a[0])), this.y.at(a[1] + share * (b[1] - a[1]))];
      }
    }
    return null;
  }

  /** @param {number} chainage @returns {[number, number]} */
  normal(chainage) {
    const a = this.place(chainage - 0.5) ?? [0, 0];
    const b = this.place(chainage + 0.5) ?? [1, 0];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    return [(b[1] - a[1]) / length, -(b[0] - a[0]) / length];
  }

  /** @param {number | null} chainage */
  showCrosshair(chainage) {
    const place = chainage === null ? null : this.place(chainage);
    this.mark.setAttribute("visibility", place ? "visible" : "hidden");
    if (!place) return;
    this.mark.setAttribute("cx", place[0].toFixed(1));
    this.mark.setAttribute("cy", place[1].toFixed(1));
  }
}
