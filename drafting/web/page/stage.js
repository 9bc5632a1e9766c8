// The drawing: its views, its sheets, zoomed and moved; its sizes and the fields light each other.
import { $, drawn, make } from "./dom.js";

export class Stage {
  constructor(form, jobs) {
    this.form = form;
    this.jobs = jobs; // sheets(): ask for them; other(word): fill the place beside the drawing
    this.tab = "Views";
    this.sheets = null;
    this.views = this.mark = "";
    this.values = {};
    this.at = {};
    this.frame = $("#drawing");
    this.size = -1;
    this.hands();
  }

  words() {
    const count = this.sheets?.length || 2;
    return ["Views", ...Array.from({ length: count }, (_, k) => `Sheet ${k + 1}`), "Will it hold?", "Text"];
  }

  turn(tab) {
    this.tab = tab;
    this.show();
  }

  show() {
    const words = this.words();
    if (!words.includes(this.tab)) this.tab = "Views";
    if ($("#tabs").children.length !== words.length) $("#tabs").replaceChildren(...words.map((w) => this.button(w)));
    for (const b of $("#tabs").children) {
      const on = b.textContent === this.tab;
      b.setAttribute("aria-selected", String(on));
      b.tabIndex = on ? 0 : -1;
    }
    const sheet = /^Sheet (\d)/.exec(this.tab), is = this.tab === "Views" || sheet;
    this.frame.hidden = !is || (!this.views && !this.sheets);
    $("#other").hidden = Boolean(is);
    $("#zoom").hidden = !is;
    if (!is) this.jobs.other(this.tab);
    else if (sheet && !this.sheets) { this.wait("The sheets are being laid out."); this.jobs.sheets(); }
    else this.draw(sheet ? this.sheets[Math.min(sheet[1], this.sheets.length) - 1] : this.views);
  }

  wait(words) { this.frame.replaceChildren(make("p", { className: "wait", textContent: words })); }

  button(w) {
    const b = make("button", { type: "button", textContent: w });
    b.setAttribute("role", "tab");
    b.addEventListener("click", () => this.turn(w));
    b.addEventListener("keydown", (e) => {
      const step = { ArrowRight: 1, ArrowLeft: -1 }[e.key];
      if (!step) return;
      const all = [...$("#tabs").children], to = all[(all.indexOf(b) + step + all.length) % all.length];
      to.focus();
      to.click();
    });
    return b;
  }

  draw(svg) {
    if (!svg) return;
    this.frame.classList.toggle("views", this.tab === "Views");
    if (this.shown !== svg) {
      const held = make("div", {}, drawn(svg)), stood = this.sizes()[this.size]?.dataset.name;
      this.frame.replaceChildren(held);
      this.frame.classList.remove("following");
      this.shown = svg;
      this.size = stood ? this.sizes().findIndex((e) => e.dataset.name === stood) : -1; // it keeps its place
      this.sizes()[this.size]?.classList.add("lit");
      for (const e of held.querySelectorAll("g.dimension[data-name]")) this.link(e);
      if (this.lit) this.light(this.lit, true);
    } else if (!this.frame.querySelector("svg")) { this.shown = ""; this.draw(svg); }
    this.put();
  }

  // The lines of a view as they will be, where it stands; its sizes follow, and are paler until then.
  outline(svg) {
    const fresh = drawn(`<svg>${svg}</svg>`).firstElementChild, old = this.shown === this.views && this.frame.querySelector(`[id="${fresh.id}"]`);
    if (!old) return;
    const lines = (view) => [...view.children].filter((e) => !e.matches(".dimension, text, title"));
    for (const e of lines(old)) e.remove();
    old.prepend(...lines(fresh));
    this.frame.classList.add("following");
  }

  // What was drawn last as a whole, where outlines were ahead of it.
  whole() {
    if (!this.frame.classList.contains("following")) return;
    this.shown = "";
    this.show();
  }

  link(e) {
    const name = e.dataset.name, field = this.form.of(name);
    e.dataset.field = field || name;
    e.addEventListener("pointerenter", () => this.hover(e, true));
    e.addEventListener("pointerleave", () => this.hover(e, false));
    e.addEventListener("click", () => { if (!this.moved) this.choose(e); });
  }

  hover(e, on) {
    const box = this.form.boxes[e.dataset.field];
    e.classList.toggle("lit", on);
    box?.whole.classList.toggle("linked", on);
    document.querySelector(`#lengths [data-of="${CSS.escape(e.dataset.field)}"]`)?.classList.toggle("linked", on);
    if (!box && on) this.slip(e.dataset.name, false);
    else if (!on) $("#slip").hidden = true;
  }

  choose(e) {
    if (!this.form.go(e.dataset.field)) this.slip(e.dataset.name, true);
  }

  // A size without a field of its own says what it follows from.
  slip(name, firm) {
    const value = this.values[name], slip = $("#slip");
    slip.hidden = false;
    slip.dataset.firm = firm;
    slip.textContent = value ? `${name.replace(/[._]/g, " ")}: ${value.words}. It follows: ${value.why || value.origin}.`
      : `${name.replace(/[._]/g, " ")}: it follows from the other sizes.`;
  }

  // A field in hand lights its size, here and among the lengths.
  light(name, on) {
    this.lit = on ? name : "";
    for (const e of this.frame.querySelectorAll(`[data-field="${CSS.escape(name)}"]`)) e.classList.toggle("lit", on);
    document.querySelector(`#lengths [data-of="${CSS.escape(name)}"]`)?.classList.toggle("linked", on);
  }

  get place() { return (this.at[this.tab] ||= { x: 0, y: 0, k: 1 }); }

  put() {
    const held = this.frame.firstChild, { x, y, k } = this.place;
    if (held?.style) held.style.transform = `translate(${x}px,${y}px) scale(${k})`;
  }

  zoom(by, x = this.frame.clientWidth / 2, y = this.frame.clientHeight / 2) {
    const at = this.place, k = Math.min(Math.max(at.k * by, 1), 30);
    this.at[this.tab] = k === 1 ? { x: 0, y: 0, k } : { x: x - (x - at.x) * k / at.k, y: y - (y - at.y) * k / at.k, k };
    this.put();
  }

  fit() { this.at[this.tab] = { x: 0, y: 0, k: 1 }; this.put(); }

  hands() {
    const f = this.frame, fingers = new Map();
    f.addEventListener("wheel", (e) => {
      if (!e.ctrlKey && this.place.k === 1 && e.deltaY > 0) return; // the page scrolls on
      e.preventDefault();
      const r = f.getBoundingClientRect();
      this.zoom(Math.exp(-e.deltaY / 400), e.clientX - r.left, e.clientY - r.top);
    }, { passive: false });
    f.addEventListener("pointerdown", (e) => { fingers.set(e.pointerId, e); this.moved = false; });
    f.addEventListener("pointermove", (e) => {
      const before = fingers.get(e.pointerId);
      if (!before) return;
      const [other] = [...fingers.values()].filter((p) => p.pointerId !== e.pointerId);
      if (other) {
        const r = f.getBoundingClientRect(), far = (p) => Math.hypot(p.clientX - other.clientX, p.clientY - other.clientY) || 1;
        this.zoom(far(e) / far(before), (e.clientX + other.clientX) / 2 - r.left, (e.clientY + other.clientY) / 2 - r.top);
      } else if (this.place.k > 1) {
        const at = this.place;
        this.at[this.tab] = { ...at, x: at.x + e.clientX - before.clientX, y: at.y + e.clientY - before.clientY };
        this.moved = this.moved || Math.hypot(e.clientX - before.clientX, e.clientY - before.clientY) > 2;
        this.put();
      }
      fingers.set(e.pointerId, e);
    });
    for (const w of ["pointerup", "pointercancel", "pointerleave"]) f.addEventListener(w, (e) => fingers.delete(e.pointerId));
    f.addEventListener("keydown", (e) => this.key(e));
    f.addEventListener("blur", () => this.step(0));
    for (const b of $("#zoom").children) b.addEventListener("click", () => b.dataset.zoom === "fit" ? this.fit() : this.zoom(Number(b.dataset.zoom)));
  }

  // Arrows go from size to size; on a drawing that is zoomed in they move it.
  key(e) {
    const way = { ArrowLeft: [60, 0], ArrowRight: [-60, 0], ArrowUp: [0, 60], ArrowDown: [0, -60] }[e.key];
    if (way && this.place.k > 1 && !e.shiftKey) {
      const at = this.place;
      this.at[this.tab] = { ...at, x: at.x + way[0], y: at.y + way[1] };
      this.put();
    } else if (way) this.step(way[0] + way[1] > 0 ? -1 : 1);
    else if (e.key === "Enter" && this.size >= 0) this.choose(this.sizes()[this.size]);
    else if (e.key === "+" || e.key === "=") this.zoom(1.3);
    else if (e.key === "-") this.zoom(1 / 1.3);
    else if (e.key === "0") this.fit();
    else return;
    e.preventDefault();
  }

  sizes() { return [...this.frame.querySelectorAll("g.dimension[data-name]")]; }

  step(by) {
    const all = this.sizes();
    if (all[this.size]) this.hover(all[this.size], false);
    if (!by || !all.length) { this.size = -1; return; }
    this.size = (this.size + by + all.length) % all.length;
    const e = all[this.size];
    this.hover(e, true);
    const box = this.form.boxes[e.dataset.field];
    if (box) { $("#slip").hidden = false; $("#slip").textContent = `${this.form.words(e.dataset.field)}: ${e.textContent.replace(/\s+/g, " ").trim()}. Enter goes to its field.`; }
  }
}
