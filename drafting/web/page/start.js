// Where one starts: a new cylinder by measuring, an older drawing, or a sample.
import { $, ask, drawn, make } from "./dom.js";

const SAMPLES = [["Clevis at both ends, inches", "in", "clevis", "clevis"], ["Cross tube and clevis, inches", "in", "cross tube", "clevis"],
  ["Eye at both ends, millimetres", "mm", "pin eye", "pin eye"], ["Flange and rod thread, millimetres", "mm", "flange", "male thread"]];

export class Start {
  constructor(told, look) { // look(text): go on with it
    this.look = look;
    const pick = (id, words, choices, value) => {
      const input = make("select", { id }, ...choices.map(([v, w]) => make("option", { value: v, textContent: w })));
      input.value = value;
      return [make("label", { htmlFor: id, textContent: words }), input];
    };
    const mounts = (end) => told.fields[`${end}_mount.mount`].choices.map((w) => [w, w]);
    const title = make("input", { id: "start-title", type: "text", placeholder: "what it is for" });
    const [body, rod] = ["body", "rod"].map((end) => pick(`start-${end}`, end === "body" ? "Body end, the one that stands still" : "Rod end", mounts(end), end === "body" ? "cross tube" : "clevis"));
    const units = pick("start-units", "A bare number means", [["in", "inches"], ["mm", "millimetres"]], /^en-US/.test(navigator.language) ? "in" : "mm");
    this.pictures = { body_mount: make("span", { className: "picture" }), rod_mount: make("span", { className: "picture" }) };
    const go = make("button", { type: "submit", className: "strong", textContent: "Start measuring" });
    const form = make("form", { className: "card" }, make("h2", { textContent: "An old cylinder, or a new one" }),
      make("p", { textContent: "Have tape and caliper at hand. The form asks in the order of measuring, and the drawing grows beside it." }),
      make("label", { htmlFor: "start-title", textContent: "Name on the drawing" }), title, ...units,
      make("div", { className: "end" }, make("div", {}, ...body), this.pictures.body_mount), make("div", { className: "end" }, make("div", {}, ...rod), this.pictures.rod_mount), go);
    form.addEventListener("submit", (e) => {
      e.preventDefault();
      this.begin({ title: title.value.trim(), units: units[1].value, body: body[1].value, rod: rod[1].value });
    });
    for (const input of [body[1], rod[1]]) input.addEventListener("change", () => this.picture(body[1].value, rod[1].value));
    this.picture(body[1].value, rod[1].value);
    const open = make("label", { className: "button", htmlFor: "open", textContent: "Choose a file" });
    const samples = SAMPLES.map(([words, u, b, r]) => {
      const button = make("button", { type: "button", textContent: words });
      button.addEventListener("click", () => this.begin({ title: "", units: u, body: b, rod: r, sample: true }));
      return button;
    });
    $("#start").append(form, make("div", {},
      make("div", { className: "card" }, make("h2", { textContent: "Go on with one" }), make("p", { textContent: "A spec, or anything that was made from one here: PDF, DXF, SVG, STEP, PNG, CSV, HTML. Or drop it anywhere on this page." }), open),
      make("div", { className: "card samples" }, make("h2", { textContent: "Look at a sample" }), ...samples)));
  }

  async picture(body, rod) {
    const answer = await ask(`/guide?${new URLSearchParams({ body, rod })}`);
    if (!answer.ok) return;
    const { pictures } = await answer.json();
    for (const [end, place] of Object.entries(this.pictures)) place.replaceChildren(drawn(pictures[`${end}.mount`]));
  }

  async begin(wish) {
    const found = await (await ask("/begin", wish)).json();
    if (found.text) this.look(found.text);
  }
}
