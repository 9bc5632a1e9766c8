// The spec's text: undo, redo, and a copy in the browser's own store, so that nothing is lost.
import { $ } from "./dom.js";

export class Text {
  constructor(file) {
    this.file = file;
    this.now = file.text;
    this.other = false; // another cylinder than the file's was opened or begun
    this.none = []; // fields of what was asked for and is not there
    this.back = [];
    this.forth = [];
    this.key = `drafting ${file.file}`;
    try {
      const kept = JSON.parse(localStorage.getItem(this.key) || "null");
      const changed = kept && kept.mark !== file.mark; // by somebody else, since it was kept here
      if (kept && kept.text && !(kept.saved && changed)) {
        this.now = kept.text;
        this.other = Boolean(kept.other);
        this.none = kept.none || [];
        if (changed && kept.text !== file.text) this.file = { ...file, mark: kept.mark, text: null }; // a save has to ask first
      }
    } catch (none) { /* a store that is shut: the page works without */ }
  }

  take(next, other = this.other) {
    this.other = other;
    if (next === this.now) return;
    if (this.now) { this.back.push(this.now); this.forth = []; }
    if (this.back.length > 200) this.back.shift();
    this.now = next;
    this.keep();
  }

  lacks(name, on) {
    this.none = this.none.filter((n) => n !== name).concat(on ? name : []);
    this.keep();
  }

  // Go one step back or forth; false where there is none.
  step(forth) {
    const [from, to] = forth ? [this.forth, this.back] : [this.back, this.forth];
    if (!from.length) return false;
    to.push(this.now);
    this.now = from.pop();
    this.keep();
    return true;
  }

  keep() {
    const { file } = this.file, saved = file && this.now === this.file.text;
    let kept = true;
    try { localStorage.setItem(this.key, JSON.stringify({ text: this.now, other: this.other, none: this.none, mark: this.file.mark, saved: Boolean(saved) })); } catch (none) { kept = false; }
    const time = new Date().toTimeString().slice(0, 5);
    $("#kept").dataset.saved = String(Boolean(saved));
    $("#kept").textContent = !this.now ? "" : saved ? `Saved in ${file}`
      : `${file ? "Not in the file yet. " : ""}${kept ? `Kept in this browser, ${time}` : "Not kept: this browser's store is shut"}`;
    $("#save").hidden = !file;
    $("#save").textContent = `Save to ${file}`;
    $("#undo").disabled = !this.back.length;
    $("#redo").disabled = !this.forth.length;
  }
}
