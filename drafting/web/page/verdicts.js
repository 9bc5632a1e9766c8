// Will it hold: one line in sight, all of it on a tab; both lead to the field that would decide.
import { $, make } from "./dom.js";

const ORDER = ["fails", "not known", "depends", "holds"];
const SAID = { fails: "fail", "not known": "not known", depends: "depend", holds: "hold" };

export class Verdicts {
  constructor(form, turn) {
    this.form = form;
    this.turn = turn;
  }

  // The check to be named and the field to go to: of what fails the worst, by its own field; else
  // the field for which most checks wait, by the first of them.
  decisive(v) {
    const open = v.checks.filter((c) => c.verdict !== "holds"), failing = open.filter((c) => c.verdict === "fails");
    if (failing.length) return this.way(failing.find((c) => this.own(c).length) || failing[0]);
    const waiting = (f) => open.filter((c) => c.fields.includes(f)).length;
    const field = [...new Set(open.flatMap((c) => this.own(c)))].sort((a, b) => waiting(b) - waiting(a))[0];
    return field && { check: open.find((c) => c.fields.includes(field)), field, waiting: waiting(field) };
  }

  // The fields of the form that decide a check, first the one that its row names.
  own(check) { return check.fields.filter((f) => this.form.boxes[f]); }

  way(check) { return { check, field: this.own(check)[0] }; }

  // Each check that fails by its name, with a way to the field that would decide.
  failing(v, gone) {
    return v.checks.filter((c) => c.verdict === "fails").map((c) => {
      const { field } = this.way(c), told = make("span", { className: "failing" }, `${c.check}${field ? ": " : ""}`);
      if (field) { const to = this.form.link(field); to.addEventListener("click", gone); told.append(to); }
      return told;
    });
  }

  line(v) {
    const all = make("button", { type: "button", className: "link all", textContent: "Will it hold?" });
    all.addEventListener("click", () => this.turn("Will it hold?"));
    const counts = ORDER.map((w) => [w, v.checks.filter((c) => c.verdict === w).length]).filter(([, n]) => n);
    const words = counts.length ? counts.map(([w, n]) => make("b", { className: `verdict ${w.replace(" ", "-")}`, textContent: `${n} ${SAID[w]}` }))
      : [make("b", { className: "verdict not-known", textContent: v.word.toLowerCase() })];
    const next = counts.length ? this.next(this.decisive(v)) : [`${v.sentence}. Type the `, this.form.link("cylinder.working_pressure")];
    $("#strip").replaceChildren(...words, make("span", { className: "worst" }, ...next), all);
    $("#dock-word").replaceChildren(...words.slice(0, 2).map((w) => w.cloneNode(true)));
  }

  // What to do next, and for the sake of which check.
  next(way) {
    if (!way) return [];
    const { check: c, field, waiting } = way, to = field ? [this.form.link(field)] : [];
    if (c.verdict !== "fails") return ["Type next: ", ...to, waiting > 1 ? `; ${waiting} checks wait for it.` : `; ${c.check} waits for it.`];
    const by = c.factor && c.factor !== "-" ? `: ${c.factor} of ${c.asked}` : "";
    return [`${c.check[0].toUpperCase()}${c.check.slice(1)} fails${by}.`, ...(field ? [" Change: ", ...to] : [])];
  }

  // What does not go, each with a way to its field; what is only open is the steps' affair.
  faults(faults, homeless) {
    const wrong = faults.filter((f) => f.code !== "missing");
    $("#strip").replaceChildren();
    $("#dock-word").replaceChildren();
    if (!wrong.length) return;
    $("#strip").append(make("b", { className: "verdict fails", textContent: wrong[0].code === "failed" ? "The tool failed" : `${wrong.length} ${wrong.length > 1 ? "things do" : "thing does"} not go` }));
    $("#dock-word").append($("#strip").firstChild.cloneNode(true));
    for (const f of wrong.slice(0, 3)) {
      const home = homeless.includes(f) ? null : f.field;
      const where = home ? this.form.words(home) : f.field || (f.line ? `line ${f.line}` : "");
      $("#strip").append(make("span", { className: "worst" }, `${where}: `, ...this.form.said(`${f.message.split(";")[0]} `, f.field), ...(home ? [this.form.link(home, "Go there")] : [])));
    }
  }

  show(v) {
    const table = make("table"), head = make("tr");
    for (const w of ["check", "factor", "asked", "verdict", "what decides"]) head.append(make("th", { scope: "col", textContent: w }));
    table.append(head);
    for (const c of v.checks) {
      const last = make("td", { textContent: `${c.decides} ` });
      this.own(c).slice(0, 2).forEach((f, k) => last.append(...(k ? [", "] : []), this.form.link(f)));
      table.append(make("tr", {}, ...[c.check, c.factor, c.asked].map((w) => make("td", { textContent: w })),
        make("td", {}, make("b", { className: `verdict ${c.verdict.replace(" ", "-")}`, textContent: c.verdict })), last));
    }
    $("#other").replaceChildren(make("h2", { textContent: `${v.word}` }), make("p", { textContent: v.sentence }), ...(v.refusal ? [make("p", { textContent: v.refusal })] : []),
      make("div", { className: "wide" }, ...(v.checks.length ? [table] : [])), make("h2", { textContent: "Cautions" }), ...v.cautions.map((c) => make("p", { textContent: c })));
  }
}
