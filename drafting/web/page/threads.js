// Which thread is it: two readings, and what to type for each port that fits.
import { ask, make } from "./dom.js";

export function whichThread(box, units) {
  const id = `which-${box.name}`;
  const field = (key, words, hint) => {
    const input = make("input", { id: `${id}-${key}`, type: "text", placeholder: hint, spellcheck: false });
    return [make("label", { htmlFor: input.id, textContent: words }), input];
  };
  const hole = field("hole", "Inside of the hole, over the crests at its mouth", "0.69"), pitch = field("pitch", "Threads to the inch, or pitch in mm", "16, or 1.5");
  const out = make("div", { className: "found" });
  out.setAttribute("role", "status");
  const find = async () => {
    if (!hole[1].value.trim()) { out.replaceChildren(); return; }
    const answer = await ask(`/threads?${new URLSearchParams({ hole: hole[1].value, pitch: pitch[1].value, units: units() })}`);
    const found = await answer.json();
    if (found.faults) { out.replaceChildren(make("p", { className: "note", textContent: found.faults[0].message })); return; }
    const rows = found.ports.map((p) => {
      const b = make("button", { type: "button", textContent: p.type });
      b.addEventListener("click", () => { box.input.value = p.type; box.input.dispatchEvent(new Event("input")); b.closest("details").open = false; box.input.focus(); });
      return make("li", {}, b, make("small", { textContent: `${p.family}: ${p.apart || p.beware}` }));
    });
    out.replaceChildren(
      make("p", { textContent: found.said }),
      make("ul", {}, ...rows), ...found.advice.slice(0, 2).map((w) => make("p", { textContent: w })), make("p", { textContent: `Not looked at: ${found.not_covered}.` }));
  };
  let later = 0;
  for (const input of [hole[1], pitch[1]]) input.addEventListener("input", () => { clearTimeout(later); later = setTimeout(find, 200); });
  return make("details", { className: "which" }, make("summary", { textContent: "Which thread is it?" }), ...hole, ...pitch, out);
}
