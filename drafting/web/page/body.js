// The solid: made behind the drawing when typing rests; a slider moves the rod.
/* global Solid, Lengths */
import { $, ask, make, newest } from "./dom.js";

// three.js is large: it is read when the first solid has come, not before the form.
let read = null;
const viewer = () => read ||= new Promise((done, gone) => document.head.append(make("script", { src: "/three-viewer.js", onload: done, onerror: gone })));

export class Body {
  constructor() {
    this.shown = null;
    this.of = "";
    this.units = "in";
    this.seen = "rod"; // the end that the hours are read from
    this.stroke = this.closed = 0;
    $("#slide").addEventListener("input", () => this.slide());
    $("#cut").addEventListener("change", () => this.shown?.section($("#cut").checked));
    this.dark = matchMedia("(prefers-color-scheme: dark)");
    this.dark.addEventListener("change", () => this.shown?.dark(this.dark.matches));
  }

  // Sizes are there before their solid is.
  sizes(found) {
    this.units = found.units;
    this.seen = found.typed["cylinder.clock_seen_from"] === "base" ? "base" : "rod";
    this.stroke = found.lengths.stroke.mm;
    this.closed = found.lengths.retracted.mm;
    this.slide();
  }

  async make(text, still) {
    if (this.of === text || this.none) return;
    $("#making").textContent = this.shown ? "" : "The solid is being made.";
    const answer = await ask("/solid", { text, ...newest() });
    if (answer.status !== 200 || !still()) return;
    const [data] = await Promise.all([answer.arrayBuffer(), viewer().catch(() => null)]);
    if (!still()) return;
    const canvas = $("#solid canvas"), fresh = canvas.cloneNode(true);
    try {
      const view = this.shown?.view?.();
      this.shown?.free();
      canvas.replaceWith(fresh);
      this.shown = Solid.show(fresh, data, this.stroke);
      this.shown.clock(this.seen);
      this.of = text;
      $("#making").textContent = "";
      this.shown.dark(this.dark.matches);
      if ($("#cut").checked) this.shown.section(true);
      if (view) this.shown.view(view);
      new ResizeObserver(() => this.shown.resize()).observe(fresh);
      document.documentElement.dataset.solid = String(Number(document.documentElement.dataset.solid || 0) + 1);
      this.slide();
    } catch (none) { this.none = true; $("#making").textContent = ""; fresh.hidden = true; $("#none").hidden = false; }
  }

  slide() {
    const mm = this.stroke * $("#slide").value / 1000;
    $("#at").textContent = this.stroke ? `At ${Lengths.both(mm, this.units)} of stroke: ${Lengths.both(this.closed + mm, this.units)}` : "";
    $("#slide").setAttribute("aria-valuetext", $("#at").textContent);
    this.shown?.slide(mm);
  }
}
