// The page: what its parts have to do with each other.
import { $, ask, newest, parts } from "./dom.js";
import { Body } from "./body.js";
import { Files } from "./files.js";
import { Following } from "./following.js";
import { Form } from "./form.js";
import { Stage } from "./stage.js";
import { Start } from "./start.js";
import { Steps } from "./steps.js";
import { Text } from "./text.js";
import { Verdicts } from "./verdicts.js";

const { form: told, state: file } = JSON.parse($("#told").textContent); // they came with the page
const text = new Text(file);
let seen = null, at = "", warmed = null;

const form = new Form(told, { type, light: (name, on) => stage.light(name, on), next: (name) => steps.next(name) });
const steps = new Steps(form, text);
const verdicts = new Verdicts(form, (tab) => stage.turn(tab));
const stage = new Stage(form, { sheets, other });
const body = new Body();
const following = new Following(text, { show, rest, mark: () => stage.mark });
const files = new Files(text, { look: (next, other) => look(next, { other, fresh: other }), name: () => seen?.name || "cylinder", still });
let start = null;

// A change goes to the tool, and with another mount what that one does not take.
function type(name, value) {
  const typed = { [name]: value.trim() || null };
  if (name.endsWith(".mount")) for (const other of left(name.split(".")[0], value)) typed[other] = null;
  following.put(typed);
}

// What a mount had typed that another one does not take.
function left(end, mount) {
  const takes = told.taken[end][mount] || { first: [], more: [] };
  return Object.values(form.boxes).filter((b) => b.name.startsWith(`${end}.`) && !b.name.endsWith(".mount")
    && ![...takes.first, ...takes.more].includes(b.name) && b.input.value).map((b) => b.name);
}

// other: a text that is not the one of the file that the page was started on.
function look(next, { fresh = false, other: foreign = false } = {}) {
  if (fresh) text.none = [];
  if (next !== undefined) text.take(next, foreign);
  if (fresh) { seen = null; stage.views = ""; stage.shown = ""; $("#drawing").replaceChildren(); for (const b of document.querySelectorAll("#lengths b")) b.textContent = "\u2013"; }
  started(Boolean(text.now), fresh);
  following.fresh();
}

// One part of an answer after the other.
function show(part) {
  if (part.faults) sizes(part);
  if (part.outline) { stage.outline(part.outline); count("outlined"); }
  if (part.views) {
    stage.views = part.views;
    stage.mark = part.key;
    stage.sheets = null;
    at = new Date().toTimeString().slice(0, 5);
    stage.show();
    count("drawn");
  }
  if (part.verdict) {
    seen = { ...seen, ...part };
    form.judge([], part.findings);
    verdicts.line(part.verdict);
    if (stage.tab === "Will it hold?") verdicts.show(part.verdict);
  }
}

// What a test waits for.
function count(what) { document.documentElement.dataset[what] = String(Number(document.documentElement.dataset[what] || 0) + 1); }

function sizes(found) {
  const homeless = form.judge(found.faults, null), wrong = found.faults.filter((f) => f.code !== "missing");
  if (found.typed) {
    form.fill(found.typed, found.faults.length ? null : found.values, following.pending);
    steps.show(found.typed, !found.faults.length || Boolean(seen));
    steps.follow(found.typed);
  }
  const stale = found.faults.length > 0, mended = !stale && $("#stage").classList.contains("stale");
  if (stale) { warm(); stage.whole(); }
  $("#stage").classList.toggle("stale", stale && Boolean(seen));
  document.body.dataset.drawing = String(!stale || Boolean(seen));
  $("#waiting").textContent = stale && seen ? `As it was at ${at}` : "";
  if (stale) {
    verdicts.faults(found.faults, homeless);
    if (found.typed) titled(found.typed.title, found.typed.number);
    if (!wrong.length) $("#dock-lengths").textContent = "";
    return;
  }
  if (mended) $("#strip").textContent = "Being judged.";
  seen = { ...seen, ...found };
  stage.values = found.values;
  if (!stage.views) stage.wait("The drawing is being made.");
  titled(found.title, found.name);
  for (const [word, { words, mm }] of Object.entries(found.lengths)) {
    halves($(`[data-length=${word}]`), words);
    $(`[data-length=${word}]`).dataset.mm = mm;
  }
  $("#weight").textContent = found.weight;
  $("#dock-lengths").textContent = `${found.lengths.retracted.words.split(" (")[0]} to ${found.lengths.extended.words.split(" (")[0]}`;
  body.sizes(found);
}

// "27 1/4 in (692.15 mm)": the person's own unit large, the other beside it.
function halves(place, words) {
  const [first, second] = words.split(" (");
  place.replaceChildren(first, Object.assign(document.createElement("small"), { textContent: ` ${second.slice(0, -1)}` }));
}

function titled(title, name) {
  $("#name").replaceChildren(title || "Cylinder", Object.assign(document.createElement("small"), { textContent: name || "" }));
  document.title = [name, title].filter(Boolean).join(" ") || "Cylinder";
}

// What whoever takes the package should know of it.
function still(gone) {
  if ($("#stage").classList.contains("stale")) return ["What does not go has to be mended first."];
  const failing = seen?.verdict ? verdicts.failing(seen.verdict, gone) : [], fail = failing.length, open = steps.open(seen?.typed || {}).length;
  const ruled = document.querySelectorAll("#form .field.ruled:not([hidden])").length, n = open + ruled;
  return [...(fail ? [`${fail > 1 ? `${fail} checks fail` : "1 check fails"}, and the package does not judge:`, ...failing] : []),
    ...(n ? [`${n} ${n > 1 ? "sizes are" : "size is"} still open or drawn by rule; the package says so.`] : [])];
}

// When typing rests: the solid, and the sheets if one is looked at.
function rest() {
  const own = text.now;
  if (seen?.text !== own) return; // what does not go has no solid
  if (stage.tab.startsWith("Sheet")) sheets();
  body.make(own, () => text.now === own && !following.awaited); // to show it takes a while: a drawing goes before
}

async function sheets() {
  const own = text.now;
  if (seen?.text !== own) { stage.wait("There is no sheet of what does not go. It comes when that is mended."); return; }
  const answer = await ask("/sheets", { text: own, ...newest(" sheets") });
  for await (const part of parts(answer)) {
    if (text.now !== own || !part.sheets) return;
    stage.sheets = part.sheets;
    if (stage.tab.startsWith("Sheet")) stage.show();
  }
}

function other(word) {
  if (word === "Will it hold?") { if (seen?.verdict) verdicts.show(seen.verdict); return; }
  if (document.activeElement?.tagName === "TEXTAREA") return;
  const area = Object.assign(document.createElement("textarea"), { value: text.now, spellcheck: false, ariaLabel: "the spec as text" });
  let later = 0;
  area.addEventListener("input", () => { clearTimeout(later); later = setTimeout(() => look(area.value), 400); });
  $("#other").replaceChildren(area);
}

// Where no drawing comes by itself yet, the kernel is loaded meanwhile.
function warm() { warmed ||= ask("/warm", {}).catch(() => {}); }

// Start, or the form: one of them is on the page.
function started(on, fresh) {
  document.body.dataset.state = on ? "form" : "start";
  $("#new").textContent = on ? "New" : "Back";
  $("#new").hidden = !on && !text.now;
  if (!on) warm();
  if (!on && !start) start = new Start(told, (next) => look(next, { fresh: true, other: true }));
  if (fresh && on) { scrollTo(0, 0); $("#form").scrollTop = 0; $("#form").focus({ preventScroll: true }); steps.lead = true; }
}

for (const [id, forth] of [["#undo", false], ["#redo", true]]) $(id).addEventListener("click", () => { if (text.step(forth)) look(); });
$("#new").addEventListener("click", () => {
  if (document.body.dataset.state === "start") look(); // back to what there was
  else started(false);
});
addEventListener("keydown", (e) => {
  const typing = ["INPUT", "TEXTAREA"].includes(document.activeElement?.tagName);
  if (e.key === "F6") {
    const rooms = ["header", "#rail", "#form", "#stage"].map($), n = rooms.length, here = rooms.findIndex((r) => r.contains(document.activeElement));
    const to = rooms[e.shiftKey ? (Math.max(here, 0) + n - 1) % n : (here + 1) % n];
    (to.id === "form" ? to : to.querySelector(to.id === "stage" ? "#drawing" : "summary, a")).focus();
    e.preventDefault();
  }
  if (!(e.ctrlKey || e.metaKey)) return;
  if (e.key === "s") { e.preventDefault(); if (text.file.file) files.save(); }
  if (e.key === "z" && !typing) { e.preventDefault(); $(e.shiftKey ? "#redo" : "#undo").click(); }
});

text.keep();
look();
