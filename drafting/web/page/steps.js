// What to measure next, by the order of the worksheet, and how much is still open.
import { $, ask, make } from "./dom.js";

const THREE = ["cylinder.retracted", "cylinder.extended", "cylinder.stroke"];
const LAST = "cylinder.working_pressure"; // what follows the last size: with it, it can be judged
const FEW = 2; // answers that stand as buttons on the card

export class Steps {
  constructor(form, text) {
    this.form = form;
    this.text = text; // keeps what there is none of
    this.mounts = "";
    this.steps = [];
    this.tip = make("p", { className: "tip", ariaHidden: "true" }); // where the card is far from its field
    this.lead = false; // to the first size that is open, once it is known
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
    this.form.pictures(found.pictures, found.steps);
    for (const s of found.steps) if (s.none && !this.form.boxes[s.field].none) this.lacking(s);
    this.show(this.typed, this.whole);
  }

  // What is asked of everyone and not typed yet; two of the three lengths give the third.
  open(typed) {
    const lengths = THREE.filter((n) => typed[n] !== undefined).length;
    return this.asked(typed).filter((s) => typed[s.field] === undefined && !this.text.none.includes(s.field)
      && !(THREE.includes(s.field) && lengths > 1)
      && !(s.field.endsWith(".plate") && typed[`${s.field}.0`] !== undefined));
  }

  // Some questions follow from another one's answer, some end with it.
  asked(typed) {
    const has = (n) => typed[n] !== undefined;
    return this.steps.filter((s) => s.asked && (has(s.field) || ((!s.after || has(s.after)) && !s.until?.every(has))));
  }

  // Beside a box that may rightly stay empty: that there is none is an answer, too.
  lacking(s) {
    const box = this.form.boxes[s.field];
    box.none = make("button", { type: "button", className: "none", textContent: s.none });
    box.none.addEventListener("click", () => this.lacks(s.field, !this.text.none.includes(s.field)));
    box.reading.before(box.none);
  }

  lacks(name, on) {
    this.text.lacks(name, on);
    this.show(this.typed, this.whole);
    if (on) this.next(name);
  }

  // From one field to the next that is open, by the order of the worksheet.
  next(name) {
    const open = this.open({ ...this.typed, [name]: "" }), here = this.steps.findIndex((s) => s.field === name);
    const to = open.find((s) => this.steps.indexOf(s) > here) || open[0];
    if (to) this.form.go(to.field);
    else if (name !== LAST && this.typed[LAST] === undefined) this.form.go(LAST);
  }

  // whole: a drawing is there, so that the card is small; else it fills the place of the drawing.
  show(typed, whole) {
    this.typed = typed;
    this.whole = whole;
    const open = this.open(typed), asked = this.asked(typed).length;
    for (const box of Object.values(this.form.boxes)) {
      box.whole.classList.toggle("open", open.some((s) => s.field === box.name));
      box.input.setAttribute("aria-describedby", ["reading", "note"].map((w) => `${box.input.id}-${w}`).concat(open[0]?.field === box.name ? "next-tip" : []).join(" "));
      if (!box.none) continue;
      box.none.hidden = typed[box.name] !== undefined;
      box.none.setAttribute("aria-pressed", String(this.text.none.includes(box.name)));
    }
    for (const link of $("#rail").children) {
      const part = document.querySelector(link.hash);
      const n = [...part.querySelectorAll(".field.open:not([hidden])")].length, ruled = part.querySelectorAll(".field.ruled:not([hidden])").length;
      link.lastChild.textContent = n ? `${n} open` : ruled ? `${ruled} by rule` : "";
      link.lastChild.className = n ? "openly" : "";
    }
    const card = $("#next");
    card.classList.toggle("large", !whole);
    card.hidden = !open.length;
    this.tip.remove();
    $("#dock-next").hidden = !open.length;
    if (!open.length) return;
    $("#dock-next").textContent = `Next, ${open.length} open`;
    $("#dock-next").onclick = () => this.form.go(open[0].field);
    const s = open[0], there = (words) => words.replace("looking at the rod end", `looking at the ${this.form.seen} end`);
    const button = (textContent, done, more = {}) => {
      const b = make("button", { type: "button", textContent, ...more });
      b.addEventListener("click", done);
      return b;
    };
    const few = this.form.choices(s.field);
    const answers = few.length && few.length <= FEW ? few.map(([value, w]) => button(w[0].toUpperCase() + w.slice(1), () => { this.form.jobs.type(s.field, value); this.next(s.field); }))
      : [button("Type it", () => this.form.go(s.field), { className: "strong", title: "Enter in its box goes on to the next" }), ...(s.none ? [button(s.none, () => this.lacks(s.field, true))] : [])];
    const words = make("div", {},
      make("p", { className: "count", textContent: `Measure next \u00b7 ${open.length} of ${asked} still open` }),
      make("h2", { textContent: there(`${s.what[0].toUpperCase()}${s.what.slice(1)}`) }),
      make("p", { textContent: [this.form.words(s.field), s.tool, s.letter ? `${s.letter} on the worksheet` : ""].filter(Boolean).join(" \u00b7 ") }),
      make("p", { id: "next-tip", textContent: s.tip }), make("div", { className: "answers" }, ...answers));
    this.tip.textContent = [s.tool, s.tip].filter(Boolean).join(": ");
    this.form.boxes[s.field].note.before(this.tip);
    if (this.lead && !whole && document.activeElement === $("#form") && !matchMedia("(pointer: coarse)").matches) this.form.go(s.field);
    this.lead = false;
    card.replaceChildren(make("span", { className: "picture" }, ...this.form.picture(s.field)), words);
  }
}
