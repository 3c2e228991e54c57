// @ts-check
/** The bore with pipe and socket, to one scale. */
import { el } from "./draw.js";

export class Cross {
  /** @param {SVGSVGElement} svg */
  constructor(svg) {
    this.svg = svg;
  }

  /** @param {import("./types").Picture} picture @param {ReturnType<typeof import("./draw.js").units>} unit */
  draw(picture, unit) {
    const width = this.svg.clientWidth;
    const height = this.svg.clientHeight;
    if (width < 50) return;
    this.svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
    const { circles, socket, barrel, floats } = picture.cross;
    const largest = Math.max(...circles.map((c) => c[1]), socket ?? 0, barrel);
    const radius = Math.min(height / 2 - 16, width / 4);
    const per = radius / (largest / 2);
    const [cx, cy] = [radius + 24, height / 2];
    const parts = [];
    /** @type {[string, number, string][]} */
    const list = circles.map(([name, d], i) => [name, d, i === 0 ? "bore-wall" : "other-bore"]);
    for (const [, d, kind] of list) parts.push(el("circle", { cx, cy, r: (d / 2) * per, class: kind }));
    const outer = circles[0]?.[1] ?? largest;
    const rides = socket ?? barrel;
    const off = floats === null ? 0 : ((outer - rides) / 2) * per * (floats ? -1 : 1);
    if (socket !== null) {
      parts.push(el("circle", { cx, cy: cy + off, r: (socket / 2) * per, class: "socket" }));
      list.push(["socket with protection", socket, "socket"]);
    }
    parts.push(el("circle", { cx, cy: cy + off, r: (barrel / 2) * per, class: "barrel" }));
    list.push(["barrel with coating", barrel, "barrel"]);
    const mm = unit("mm");
    const left = cx + radius + 30;
    list.sort((a, b) => b[1] - a[1]);
    list.forEach(([name, d, kind], i) => {
      const y = cy - (list.length - 1) * 12 + i * 24;
      parts.push(el("circle", { cx: left + 6, cy: y - 4, r: 6, class: `${kind} key` }));
      const size = d * mm.factor;
      const shown = `${mm.symbol === "mm" ? Math.round(size) : size.toFixed(1)} ${mm.symbol}`;
      parts.push(el("text", { x: left + 20, y, class: "name" }, [`${shown}  ${name}`]));
    });
    if (floats !== null) {
      const words = floats ? "the string floats against the crown" : "the string lies on the invert";
      parts.push(el("text", { x: left, y: height - 12, class: "quiet" }, [words]));
    }
    this.svg.replaceChildren(...parts);
    this.svg.setAttribute("aria-label", `cross-section: ${list.map((l) => l[0]).join(", ")}`);
  }
}
