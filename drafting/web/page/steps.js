// What to measure next, by the order of the worksheet, and how much is still open.
import { $, ask, drawn, make } from "./dom.js";

const THREE = ["cylinder.retracted", "cylinder.extended", "cylinder.stroke"];
const HOURS = { base: "Looking at the base end", rod: "Looking at the rod end" };

export class Steps {
  constructor(form) {
    this.form = form;
    this.mounts = "";
    this.steps = [];
    this.pictures = {};
  }

  // Another mount is read by other sizes, and looks otherwise.
  async follow(typed) {
    const body = typed["body_mount.mount"], rod = typed["rod_mount.mount"];
    if (!body || !rod || this.mounts === `${body}/${rod}`) return;
    this.mounts = `${body}/${rod}`;
    const answer = await ask(`/guide?${new URLSearchParams({ body, rod })}`);
    if (!answer.ok) return;
    const found = await answer.json();
    if (this.mounts !== `${body}/${rod}`) return;
    this.steps = found.steps;
    this.pictures = found.pictures;
    this.form.pictures(found.pictures, found.steps);
    this.show(this.typed, this.whole);
  }

  // What is asked of everyone and not typed yet; two of the three lengths give the third.
  open(typed) {
    const lengths = THREE.filter((n) => typed[n] !== undefined).length;
    return this.steps.filter((s) => s.asked && typed[s.field] === undefined
      && !(THREE.includes(s.field) && lengths > 1)
      && !(s.field.endsWith(".plate") && typed[`${s.field}.0`] !== undefined));
  }

  // From one field to the next that is open, by the order of the worksheet.
  next(name) {
    const open = this.open({ ...this.typed, [name]: "" }), here = this.steps.findIndex((s) => s.field === name);
    const to = open.find((s) => this.steps.indexOf(s) > here) || open[0];
    if (to) this.form.go(to.field);
  }

  // whole: a drawing is there, so that the card is small; else it fills the place of the drawing.
  show(typed, whole) {
    this.typed = typed;
    this.whole = whole;
    const open = this.open(typed), asked = this.steps.filter((s) => s.asked).length;
    for (const box of Object.values(this.form.boxes)) box.whole.classList.toggle("open", open.some((s) => s.field === box.name));
    for (const link of $("#rail").children) {
      const part = document.querySelector(link.hash);
      const n = [...part.querySelectorAll(".field.open:not([hidden])")].length, ruled = part.querySelectorAll(".field.ruled:not([hidden])").length;
      link.lastChild.textContent = n ? `${n} open` : ruled ? `${ruled} by rule` : "";
      link.lastChild.className = n ? "openly" : "";
    }
    const card = $("#next");
    card.classList.toggle("large", !whole);
    card.hidden = !open.length;
    $("#dock-next").hidden = !open.length;
    if (!open.length) return;
    $("#dock-next").textContent = `Next, ${open.length} open`;
    $("#dock-next").onclick = () => this.form.go(open[0].field);
    const s = open[0], picture = this.pictures[s.field];
    const go = make("button", { type: "button", className: "strong", textContent: "Type it", title: "Enter in its box goes on to the next" });
    go.addEventListener("click", () => this.form.go(s.field));
    const words = make("div", {},
      make("p", { className: "count", textContent: `Measure next \u00b7 ${open.length} of ${asked} still open` }),
      make("h2", { textContent: `${s.what[0].toUpperCase()}${s.what.slice(1)}` }),
      make("p", { textContent: [this.form.words(s.field), s.tool, s.letter ? `${s.letter} on the worksheet` : ""].filter(Boolean).join(" \u00b7 ") }),
      make("p", { textContent: s.tip.replace("Looking at the rod end", HOURS[typed["cylinder.clock_seen_from"]] || HOURS.rod) }), go);
    card.replaceChildren(make("span", { className: "picture" }, ...(picture ? [drawn(picture)] : [])), words);
  }
}
