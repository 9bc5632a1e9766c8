// The form, from the table of fields: what is typed, what a rule gives, what does not go.
import { $, ask, drawn, make } from "./dom.js";
import { dial } from "./dial.js";
import { whichThread } from "./threads.js";

const YES = ["", "yes", "no"];
const WIDE = ["text", "thread"];
const SAID = { units: { in: "inches", mm: "millimetres" }, "cylinder.clock_seen_from": { rod: "rod end", base: "base end" } };

export class Form {
  constructor(told, jobs) {
    this.told = told;
    this.jobs = jobs; // type(name, value), light(name, on), next(name)
    this.boxes = {};
    this.mounts = {};
    this.units = "in";
    this.seen = ""; // the end that hours are read from
    this.found = {}; // pictures
    for (const s of told.sections) this.section(s);
    $("#form").addEventListener("submit", (e) => e.preventDefault());
  }

  section(s) {
    const set = make("fieldset", { id: `part-${s.key}` }, make("legend", { textContent: s.words }));
    const more = make("details", { className: "more" }, make("summary", { textContent: "More" }));
    for (const name of s.fields) (s.more.includes(name) ? more : set).append(this.field(name, this.told.fields[name]));
    if (s.more.length || s.fields.some((n) => n.endsWith(".mount"))) set.append(more);
    $("#form").append(set);
    const link = make("a", { href: `#part-${s.key}` }, s.words, make("small"));
    link.addEventListener("click", (e) => { e.preventDefault(); set.scrollIntoView({ block: "start" }); set.querySelector("input,select")?.focus({ preventScroll: true }); });
    $("#rail").append(link);
  }

  field(name, f) {
    const id = `in-${name}`;
    const choices = f.kind === "flag" ? YES : f.choices.length && f.kind === "word" ? (f.required ? f.choices : ["", ...f.choices]) : null;
    const input = choices
      ? make("select", { id }, ...choices.map((c) => make("option", { value: c, textContent: c ? (SAID[name]?.[c] || c) : "not said" })))
      : make("input", { id, type: "text", spellcheck: false });
    const reading = make("span", { className: "reading", id: `${id}-reading` });
    const note = make("p", { className: "note", hidden: true, id: `${id}-note` });
    input.setAttribute("aria-describedby", `${id}-reading ${id}-note`);
    const holder = make("span", { className: "box" }, input, make("i", { className: "unit", ariaHidden: "true" }));
    const row = make("div", { className: "row" }, holder);
    const clock = f.kind === "clock" ? dial(input, f.words) : null;
    if (clock) row.append(clock);
    if (f.kind === "word or length") { // a place, or how far
      const list = make("datalist", { id: `${id}-words` }, ...f.choices.map((c) => make("option", { value: c })));
      input.setAttribute("list", list.id);
      row.append(list);
    }
    row.append(reading);
    const picture = make("span", { className: "picture" });
    const about = make("small", { textContent: f.about });
    const label = make("label", { htmlFor: id }, make("b", { textContent: f.words }), " ", about);
    const whole = make("div", { className: `field ${WIDE.includes(f.kind) ? "words" : ""}` }, picture, make("div", {}, label, row, note));
    whole.dataset.field = name;
    const box = { name, f, input, reading, note, whole, picture, about, clock, choices, was: "" };
    input.addEventListener("input", () => { this.jobs.type(name, input.value); this.read(box); });
    input.addEventListener("focus", () => { box.was = input.value; this.jobs.light(name, true); });
    input.addEventListener("blur", () => this.jobs.light(name, false));
    input.addEventListener("keydown", (e) => {
      if (e.key === "Enter") { this.jobs.type(name, input.value); this.jobs.next(name); e.preventDefault(); } // a list stays shut: a space opens it
      if (e.key === "Escape" && input.value !== box.was) { input.value = box.was; input.dispatchEvent(new Event("input")); }
    });
    whole.addEventListener("pointerenter", () => this.jobs.light(name, true));
    whole.addEventListener("pointerleave", () => document.activeElement !== input && this.jobs.light(name, false));
    if (/_port\.thread$/.test(name)) whole.lastChild.append(whichThread(box, () => this.units));
    this.boxes[name] = box;
    return whole;
  }

  // Both units at once, while the number is still being typed.
  async read(box) {
    const value = box.input.value.trim();
    if (!value || !/length/.test(box.f.kind) || box.choices) return;
    const answer = await ask(`/read?${new URLSearchParams({ value, kind: box.f.kind, units: this.units })}`);
    const { words } = await answer.json();
    if (words && box.input.value.trim() === value) this.say(box, words, "");
  }

  say(box, words, mark) {
    const [first, second] = words.split(" = ");
    box.reading.replaceChildren(...(second ? [`${first} = `, make("b", { textContent: second })] : [words]));
    if (mark) box.reading.append(" ", make("abbr", { className: "d", textContent: mark, title: "derived: drawn by a rule, to be confirmed" }));
  }

  // What is typed, and what a rule gives where nothing is; values are null where it does not go.
  // What is pending, typed after that was asked, stays as it is.
  fill(typed, values, pending) {
    this.units = typed.units === "mm" ? "mm" : "in";
    for (const end of Object.keys(this.told.taken)) this.arrange(end, typed[`${end}.mount`]);
    this.hours(typed["cylinder.clock_seen_from"] === "base" ? "base" : "rod");
    for (const box of Object.values(this.boxes)) {
      const { name, f, input } = box, said = typed[name];
      if (document.activeElement !== input && !(name in pending)) {
        const shown = said === undefined ? "" : f.kind === "flag" ? (said === "true" ? "yes" : "no") : f.kind.startsWith("pair") ? said.replace(/[[\]"]/g, "").replace(/\s*,\s*/g, " x ") : said;
        if (input.value !== shown) input.value = shown;
      }
      box.clock?.show();
      box.input.nextElementSibling.textContent = /length/.test(f.kind) && !/[a-z"']/i.test(said || "") && !box.choices ? this.units : "";
      const value = values?.[name];
      box.whole.classList.toggle("ruled", Boolean(value) && said === undefined && ["derived", "table"].includes(value.origin));
      if (!values) continue;
      if (input.tagName === "INPUT") input.placeholder = value && said === undefined ? value.words.split(" (")[0].replace(/ (in|mm)$/, "") : "";
      box.reading.replaceChildren();
      if (!value) { if (said !== undefined && input.value) this.read(box); continue; }
      const words = value.words.replace(" (", " = ").replace(/\)$/, ""), why = value.why ? make("small", { textContent: value.why, title: value.why }) : "";
      if (said !== undefined) this.say(box, words, "");
      else {
        this.say(box, words || value.why, value.origin === "computed" || value.origin === "typed" ? "" : "D");
        if (words) box.reading.append(why);
      }
    }
    for (const d of document.querySelectorAll("#form .more")) d.hidden = [...d.querySelectorAll(".field")].every((w) => w.hidden);
  }

  // Fields of a mount stand where this mount has them: what it is read by first, the rest behind "more".
  arrange(end, mount) {
    if (this.mounts[end] === mount) return;
    this.mounts[end] = mount;
    const mine = this.told.taken[end][mount] || { first: [], more: [] };
    const set = $(`#part-${end.split("_")[0]}`), more = set.querySelector(".more");
    for (const { name, whole } of Object.values(this.boxes)) {
      if (name.startsWith(`${end}.`) && !name.endsWith(".mount")) whole.hidden = ![...mine.first, ...mine.more].includes(name);
    }
    for (const name of mine.first) set.insertBefore(this.boxes[name].whole, more);
    for (const name of mine.more) more.append(this.boxes[name].whole);
  }

  // Faults and findings beside their fields; gives the faults that have no field here.
  judge(faults, findings) {
    for (const { name, whole, input, note } of Object.values(this.boxes)) {
      const wrong = faults.find((f) => f.field === name);
      const open = wrong?.code === "missing";
      const odd = findings?.find((f) => f.field === name && f.level !== "note");
      const fault = Boolean(wrong) && !open;
      whole.classList.toggle("fault", fault);
      whole.classList.toggle("finding", !wrong && Boolean(odd));
      input.setAttribute("aria-invalid", String(fault));
      if (findings || wrong || fault) {
        note.hidden = !fault && !odd;
        note.replaceChildren(...this.said(fault ? wrong.message : odd ? odd.message : "", name), ...(fault ? this.offers(wrong, input) : []));
      } else if (!wrong) note.hidden = true;
      if (fault) { whole.closest("details")?.setAttribute("open", ""); }
    }
    return faults.filter((f) => !this.boxes[f.field]);
  }

  // Pictures by field, and what the worksheet calls a size of these mounts.
  pictures(found, steps) {
    for (const { field, what, letter } of steps) if (letter && this.boxes[field] && field.includes("_mount.")) this.boxes[field].about.textContent = what;
    this.found = found;
    for (const [name, { picture }] of Object.entries(this.boxes)) picture.replaceChildren(...this.picture(name));
  }

  picture(name) {
    const svg = (this.seen === "base" && this.found[`${name}@base`]) || this.found[name];
    return svg ? [drawn(svg)] : [];
  }

  // Every hour says, and shows, from which end it is read.
  hours(seen) {
    if (this.seen === seen) return;
    this.seen = seen;
    for (const { name, f, picture, about, clock } of Object.values(this.boxes)) {
      if (!clock) continue;
      about.textContent = `looking at the ${seen} end`;
      clock.setAttribute("aria-label", `${f.words}, on a clock, looking at the ${seen} end`);
      picture.replaceChildren(...this.picture(name));
    }
  }

  choices(name) { return (this.boxes[name].choices || []).filter(Boolean).map((c) => [c, SAID[name]?.[c] || c]); }

  // The words of a field as a person reads them.
  words(name) {
    const f = this.told.fields[name], end = { body_mount: "body end, ", rod_mount: "rod end, " }[name.split(".")[0]] || "";
    return f ? end + f.words.toLowerCase() : name;
  }

  // A message; a field that it calls by the file's word is called by its own, and is a way to it.
  said(message, about = "") {
    const table = about.split(".")[0], known = Object.keys(this.boxes);
    return message.split(/([a-z]+(?:[._][a-z]+)+)/).map((word, k) => {
      const name = k % 2 && (known.find((n) => n === word || n === `${table}.${word}`) || known.find((n) => n.endsWith(`.${word}`)));
      return name ? this.link(name) : word;
    });
  }

  // What a message says that the thread may be, to be taken by a press.
  offers({ code, message }, input) {
    if (!/^(port|thread)-(two-meanings|incomplete|size)$/.test(code) || message.includes("for example")) return [];
    const words = [...message.matchAll(/"([^"]+)"/g)].map(([, w]) => w).filter((w) => w !== input.value.trim());
    return [...new Set(words)].map((w) => {
      const b = make("button", { type: "button", className: "offer", textContent: w, ariaLabel: `take ${w}` });
      b.addEventListener("click", () => { input.value = w; input.dispatchEvent(new Event("input")); input.focus(); });
      return b;
    });
  }

  link(name, words = this.words(name)) {
    const b = make("button", { type: "button", className: "link", textContent: words });
    b.addEventListener("click", () => this.go(name));
    return b;
  }

  go(name) {
    const box = this.boxes[this.of(name)];
    if (!box) return false;
    box.whole.closest("details")?.setAttribute("open", "");
    box.whole.scrollIntoView({ block: "center" });
    box.input.focus({ preventScroll: true });
    box.input.select?.();
    return true;
  }

  // The field of a size: its own name, or that of the pair or the place that it is half of.
  of(name) {
    if (this.boxes[name]) return name;
    const whole = name.replace(/\.(\d|x|y|z|across)$/, "");
    if (this.boxes[whole]) return whole;
    const place = name.replace(/from_closed(_end)?$/, "position");
    return this.boxes[place] && !this.boxes[place].whole.hidden ? place : null;
  }
}
