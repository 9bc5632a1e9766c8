// Will it hold: one line in sight, all of it on a tab; both lead to the field that would decide.
import { $, make } from "./dom.js";

const ORDER = ["fails", "not known", "depends", "holds"];
const SAID = { fails: "fail", "not known": "not known", depends: "depend", holds: "hold" };

export class Verdicts {
  constructor(form, turn) {
    this.form = form;
    this.turn = turn;
  }

  // The field to go to next: of what fails the worst check's, else that for which most checks wait.
  decisive(v) {
    const open = v.checks.filter((c) => c.verdict !== "holds"), failing = open.filter((c) => c.verdict === "fails");
    const fields = [...new Set((failing.length ? failing : open).flatMap((c) => c.fields))].filter((f) => this.form.boxes[f]);
    const waiting = (f) => open.filter((c) => c.fields.includes(f)).length;
    const field = failing.length ? fields[0] : fields.sort((a, b) => waiting(b) - waiting(a))[0];
    return field && { field, waiting: waiting(field), failing: failing[0] };
  }

  link(name, words = this.form.words(name)) {
    const b = make("button", { type: "button", className: "link", textContent: words });
    b.addEventListener("click", () => this.form.go(name));
    return b;
  }

  // Each check that fails by its name, with a way to the field that would decide.
  failing(v, gone) {
    return v.checks.filter((c) => c.verdict === "fails").map((c) => {
      const field = c.fields.find((f) => this.form.boxes[f]), told = make("span", { className: "failing" }, `${c.check}${field ? ": " : ""}`);
      if (field) { const to = this.link(field); to.addEventListener("click", gone); told.append(to); }
      return told;
    });
  }

  line(v) {
    const all = make("button", { type: "button", className: "link all", textContent: "Will it hold?" });
    all.addEventListener("click", () => this.turn("Will it hold?"));
    const counts = ORDER.map((w) => [w, v.checks.filter((c) => c.verdict === w).length]).filter(([, n]) => n);
    const first = this.decisive(v), worst = v.checks.find((c) => c.verdict === "fails");
    const words = counts.length ? counts.map(([w, n]) => make("b", { className: `verdict ${w.replace(" ", "-")}`, textContent: `${n} ${SAID[w]}` }))
      : [make("b", { className: "verdict not-known", textContent: v.word.toLowerCase() })];
    const decides = first ? [worst ? "Change: " : "Type next: ", this.link(first.field), worst ? ". " : `; ${first.waiting > 1 ? `${first.waiting} checks wait` : "one check waits"} for it.`] : counts.length ? [] : [`${v.sentence}. Type the `, this.link("cylinder.working_pressure")];
    const failing = worst ? `${worst.check} fails${worst.factor && worst.factor !== "-" ? `: ${worst.factor} of ${worst.asked}` : ""}.` : "";
    $("#strip").replaceChildren(...words, make("span", { className: "worst" }, ...decides, failing), all);
    $("#dock-word").replaceChildren(...words.slice(0, 2).map((w) => w.cloneNode(true)));
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
      $("#strip").append(make("span", { className: "worst" }, `${home ? this.form.words(home) : f.field || (f.line ? `line ${f.line}` : "")}: ${f.message.split(";")[0]} `, ...(home ? [this.link(home, "Go there")] : [])));
    }
  }

  show(v) {
    const table = make("table"), head = make("tr");
    for (const w of ["check", "factor", "asked", "verdict", "what decides"]) head.append(make("th", { scope: "col", textContent: w }));
    table.append(head);
    for (const c of v.checks) {
      const last = make("td", { textContent: `${c.decides} ` });
      const own = c.fields.filter((f) => this.form.boxes[f]).slice(0, 2);
      own.forEach((f, k) => last.append(...(k ? [", "] : []), this.link(f)));
      table.append(make("tr", {}, ...[c.check, c.factor, c.asked].map((w) => make("td", { textContent: w })),
        make("td", {}, make("b", { className: `verdict ${c.verdict.replace(" ", "-")}`, textContent: c.verdict })), last));
    }
    $("#other").replaceChildren(make("h2", { textContent: `${v.word}` }), make("p", { textContent: v.sentence }), ...(v.refusal ? [make("p", { textContent: v.refusal })] : []),
      make("div", { className: "wide" }, ...(v.checks.length ? [table] : [])), make("h2", { textContent: "Cautions" }), ...v.cautions.map((c) => make("p", { textContent: c })));
  }
}
