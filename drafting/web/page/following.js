// What is typed goes to the tool, and what comes back is shown. The newest change wins; but where
// keys come faster than drawings, one that is under way is waited for now and then.
import { $, ask, newest, parts } from "./dom.js";

const PATIENCE = 400; // ms without a drawing, after which the one under way is waited for
const REST = 150; // ms without a key, after which solid and sheets are made

export class Following {
  constructor(text, jobs) {
    this.text = text;
    this.jobs = jobs; // show(part), rest(), mark(): the key of the views that are shown
    this.pending = {}; // typed, and not sent yet
    this.asked = {}; // sent, and not in the text yet: what an answer that is dropped had put in, too
    this.flying = null;
    this.since = 0; // when the oldest change was sent that no drawing shows yet; 0 for none
    this.behind = 0; // and when the oldest came of those that wait for the drawing under way
    this.keyed = 0; // when the last change came
    this.later = this.resting = 0;
  }

  // Put values in, all of one key press together.
  put(values) {
    Object.assign(this.pending, values);
    this.changed();
    this.later = setTimeout(() => this.send());
  }

  // Another text: nothing that was typed into the old one is put into it.
  fresh() {
    this.pending = {};
    this.asked = {};
    this.since = this.behind = 0;
    this.changed();
    if (this.text.now) this.send();
  }

  // A change is typed that no drawing shows yet.
  get awaited() { return this.since > 0 || Object.keys(this.pending).length > 0; }

  changed() {
    this.keyed = performance.now();
    clearTimeout(this.later);
    clearTimeout(this.resting);
  }

  async send() {
    const now = performance.now();
    if (this.flying && this.since && now - this.since > PATIENCE) { this.behind ||= now; return; }
    const set = this.asked = { ...this.asked, ...this.pending };
    this.pending = {};
    clearTimeout(this.resting);
    this.flying?.abort();
    const mine = this.flying = new AbortController();
    this.since ||= now;
    try {
      const answer = await ask("/look", { text: this.text.now, set, after: this.jobs.mark(), ...newest() }, { signal: mine.signal });
      for await (const part of parts(answer)) {
        if (mine !== this.flying) return;
        try { this.take(part); } catch (wrong) { reportError(wrong); } // ours, and not the tool's silence
        if (this.behind && !this.since) break; // it has come
      }
    } catch (gone) {
      if (gone.name !== "AbortError") $("#strip").textContent = "The tool does not answer: is it still running? What you typed is kept here.";
    }
    if (mine !== this.flying) return;
    mine.abort();
    this.flying = null;
    [this.since, this.behind] = [this.behind, 0];
    if (this.since) this.send();
  }

  take(part) {
    if (part.faults) this.asked = {};
    if (part.text !== undefined) this.text.take(part.text);
    this.jobs.show(part);
    if (part.views || part.faults?.length) this.since = 0; // there is no more to wait for
    if (part.views) this.resting = setTimeout(this.jobs.rest, Math.max(0, REST - (performance.now() - this.keyed)));
  }
}
