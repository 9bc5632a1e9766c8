// A clock to click, or to turn with the arrows, half an hour at a time.
const NS = "http://www.w3.org/2000/svg";

const el = (tag, at, text = "") => {
  const made = document.createElementNS(NS, tag);
  for (const [k, v] of Object.entries(at)) made.setAttribute(k, v);
  made.textContent = text;
  return made;
};

export function dial(input, words) {
  const svg = el("svg", { class: "dial", viewBox: "-40 -40 80 80", tabindex: 0, role: "slider", "aria-label": `${words}, on a clock`, "aria-valuemin": 0, "aria-valuemax": 24 });
  const hand = el("g", { class: "hand" });
  hand.append(el("line", { x1: 0, y1: 0, x2: 0, y2: -19 }), el("circle", { cy: -22, r: 4 }));
  svg.append(el("circle", { class: "face", r: 27 }), hand);
  for (let h = 1; h <= 12; h++) {
    const [s, c] = [Math.sin(h * Math.PI / 6), Math.cos(h * Math.PI / 6)];
    if (h % 3) svg.append(el("line", { class: "tick", x1: 24 * s, y1: -24 * c, x2: 27 * s, y2: -27 * c }));
    else svg.append(el("text", { x: 33 * s, y: 3.5 - 33 * c }, h));
  }
  svg.append(el("circle", { class: "hit", r: 40 }));
  const half = () => {
    const m = /^(\d{1,2})(?::(\d\d))?$/.exec(input.value.trim());
    return m ? (m[1] % 12) * 2 + (m[2] >= 15 && m[2] < 45 ? 1 : 0) : null;
  };
  const put = (at) => {
    const n = ((at % 24) + 24) % 24, h = Math.floor(n / 2) || 12;
    input.value = `${h}:${n % 2 ? "30" : "00"}`;
    input.dispatchEvent(new Event("input"));
    svg.show();
  };
  svg.addEventListener("click", (e) => {
    const r = svg.getBoundingClientRect();
    const a = Math.atan2(e.clientX - r.left - r.width / 2, r.top + r.height / 2 - e.clientY);
    put(Math.round(a / Math.PI * 12));
  });
  svg.addEventListener("keydown", (e) => {
    const step = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[e.key];
    if (step) { put((half() ?? 0) + step); e.preventDefault(); }
  });
  svg.show = () => {
    const at = half();
    hand.setAttribute("transform", `rotate(${(at || 0) * 15})`);
    svg.classList.toggle("said", at !== null);
    svg.setAttribute("aria-valuenow", at || 0);
    svg.setAttribute("aria-valuetext", input.value || "not said");
  };
  svg.show();
  return svg;
}
