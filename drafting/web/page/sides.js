// Two texts side by side, the lines that differ marked; of those that are alike only what is near.
import { make } from "./dom.js";

const NEAR = 2; // lines alike that are shown before and behind a difference
const MOST = 2000; // lines of a text; longer ones are not laid out

// Rows [mine, theirs]: both the same text for a line that both have, null where one has none.
export function rows(mine, theirs) {
  const [a, b] = [mine, theirs].map((t) => t.replace(/\n$/, "").split("\n"));
  const long = a.map(() => null).concat(null).map(() => new Uint16Array(b.length + 1)); // lines in common from here on
  for (let i = a.length - 1; i >= 0; i--) for (let j = b.length - 1; j >= 0; j--) long[i][j] = a[i] === b[j] ? long[i + 1][j + 1] + 1 : Math.max(long[i + 1][j], long[i][j + 1]);
  const out = [], left = [], right = [];
  const differ = () => { while (left.length || right.length) out.push([left.shift() ?? null, right.shift() ?? null]); };
  for (let i = 0, j = 0; i < a.length || j < b.length;) {
    if (i < a.length && j < b.length && a[i] === b[j]) { differ(); out.push([a[i++], b[j++]]); }
    else if (j < b.length && (i === a.length || long[i][j + 1] > long[i + 1][j])) right.push(b[j++]);
    else left.push(a[i++]);
  }
  differ();
  return out;
}

export function sides(mine, theirs, titles) {
  const whole = make("div", { className: "sides" }, ...titles.map((w) => make("h2", { textContent: w })));
  if (Math.max(...[mine, theirs].map((t) => t.split("\n").length)) > MOST) return whole;
  const all = rows(mine, theirs), near = (k) => all.slice(Math.max(k - NEAR, 0), k + NEAR + 1).some(([a, b]) => a !== b);
  let alike = 0;
  const pass = () => { if (alike) for (const _ of titles) whole.append(make("span", { className: "alike", textContent: `\u2026 ${alike} ${alike > 1 ? "lines" : "line"} alike` })); alike = 0; };
  all.forEach((row, k) => {
    if (!near(k)) { alike++; return; }
    pass();
    for (const line of row) whole.append(make(row[0] === row[1] ? "span" : "mark", { textContent: line ?? "" }));
  });
  pass();
  return whole;
}
