// Open, save, watch, download: each is a job of the tool, and the file is written only on a wish.
import { $, ask, make } from "./dom.js";
import { sides } from "./sides.js";

const FORMATS = [["Package for a quote, ZIP", "package"], ["Drawing, PDF", "pdf"], ["Drawing, DXF", "dxf"], ["Drawing, SVG", "svg"], ["Picture, PNG", "png"], ["Solids, STEP", "step"],
  ["3D model, GLB", "glb"], ["Sizes, CSV", "csv"], ["One file to look at, HTML", "html"], ["For programs, JSON", "json"], ["The spec, TOML", "toml"]];

const TOLD = 8000; // ms that a download is told of

export class Files {
  constructor(text, jobs) {
    this.text = text;
    this.jobs = jobs; // look(text), name(), still(gone)
    $("#open").addEventListener("change", (e) => { if (e.target.files[0]) this.open(e.target.files[0]); e.target.value = ""; });
    addEventListener("dragover", (e) => e.preventDefault());
    addEventListener("drop", (e) => { e.preventDefault(); if (e.dataTransfer.files[0]) this.open(e.dataTransfer.files[0]); });
    $("#save").addEventListener("click", () => this.save());
    for (const [words, word] of FORMATS) {
      const b = make("button", { type: "button", textContent: words });
      b.addEventListener("click", () => { $("#download").open = false; $("#download summary").focus(); this.take(word); });
      $("#formats").append(b, ...(word === "package" ? [make("p", { id: "still" })] : []));
      if (word === "package") b.setAttribute("aria-describedby", "still");
    }
    $("#download").addEventListener("toggle", () => { $("#still").replaceChildren(...this.jobs.still(() => { $("#download").open = false; })); });
    $("#download").addEventListener("keydown", (e) => { if (e.key === "Escape") { $("#download").open = false; $("#download summary").focus(); } });
    setInterval(() => this.watch(), 2000);
  }

  async open(file) {
    const answer = await fetch(`/open?name=${encodeURIComponent(file.name)}`, { method: "POST", body: file });
    const found = await answer.json().catch(() => ({ faults: [{ field: "", line: 0, code: "", message: "it is too large, or the tool does not answer" }] }));
    if (found.text === undefined) {
      this.say(`${file.name} is not opened: ${found.faults.map((f) => f.message).join("; ")} `);
      return;
    }
    $("#conflict").hidden = true;
    this.jobs.look(found.text, true);
  }

  say(words, ...more) {
    const shut = make("button", { type: "button", textContent: "Good" });
    shut.addEventListener("click", () => { $("#conflict").hidden = true; });
    $("#conflict").hidden = false;
    const told = make("p", {}, words, ...(more.length ? more : [shut]));
    told.setAttribute("role", "alert");
    $("#conflict").replaceChildren(told);
  }

  async save(mark = this.text.file.mark, sure = false) {
    if (this.text.other && !sure && this.text.file.text) {
      const over = make("button", { type: "button", textContent: "put this one in its place" }), no = make("button", { type: "button", textContent: "leave it" });
      over.addEventListener("click", () => this.save(mark, true));
      no.addEventListener("click", () => { $("#conflict").hidden = true; });
      this.say(`${this.text.file.file} holds another cylinder. `, over, " ", no);
      return;
    }
    const found = await (await ask("/save", { text: this.text.now, seen: mark })).json();
    if (!found.saved) { this.conflict(found); return; }
    this.text.file = found;
    this.text.other = false;
    $("#conflict").hidden = true;
    this.text.keep();
  }

  // The file was changed by somebody else: nothing is overwritten before a person has said which.
  conflict(found) {
    if (found.text === undefined) { this.say(`Not saved: ${found.why || (found.faults || []).map((f) => f.message).join("; ")} `); return; }
    const mine = make("button", { type: "button", textContent: `Write what is here into ${found.file}` }), theirs = make("button", { type: "button", textContent: `Go on with what ${found.file} says` });
    mine.addEventListener("click", () => { this.text.file = found; this.save(found.mark, true); });
    theirs.addEventListener("click", () => { this.text.file = found; $("#conflict").hidden = true; this.jobs.look(found.text, false); });
    this.say(`${found.file} was changed outside this page, and so was what is here. Nothing is written before you say which stays.`, "");
    $("#conflict").append(mine, " ", theirs, sides(this.text.now, found.text, ["Here on the page", `In ${found.file} now`]));
  }

  async watch() {
    const { text } = this;
    if (!text.file.file || document.hidden) return;
    try {
      const was = text.file.mark, now = await (await ask("/state")).json();
      if (text.file.mark !== was || now.mark === was || now.text === undefined) return; // saved here meanwhile, or nothing new
      if (text.now === text.file.text) { text.file = now; this.jobs.look(now.text, false); } else this.conflict(now);
    } catch (gone) { /* said when something is typed */ }
  }

  async take(word) {
    const text = this.text.now;
    if (word === "toml") { this.give(new Blob([text]), `${this.jobs.name()}.toml`); return; }
    document.body.dataset.busy = word;
    try {
      const answer = await (word === "package" ? ask("/package", { text }) : ask("/download", { text, format: word }));
      if (!answer.ok) { this.say(`Nothing was made: ${(await answer.json()).faults.map((f) => f.message).join("; ")} `); return; }
      const name = decodeURIComponent((answer.headers.get("Content-Disposition") || "").split("''")[1] || "file");
      this.give(await answer.blob(), name);
      $("#kept").textContent = `${name} is in your downloads`;
      setTimeout(() => this.text.keep(), TOLD);
    } catch (gone) { this.say("Nothing was made: the tool does not answer. Is it still running? "); } finally { delete document.body.dataset.busy; }
  }

  give(blob, name) {
    const link = make("a", { href: URL.createObjectURL(blob), download: name });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  }
}
