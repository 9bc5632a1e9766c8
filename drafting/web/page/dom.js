// Small helps for the document and for asking the tool.
export const $ = (s) => document.querySelector(s);

export const make = (tag, more = {}, ...inside) => {
  const made = Object.assign(document.createElement(tag), more);
  made.append(...inside);
  return made;
};

export const ask = (at, body, more = {}) => fetch(at, body === undefined ? more
  : { method: "POST", body: JSON.stringify(body), ...more });

// One name for this tab, and its turns: its newest wish wins over its older ones, in whatever order
// they come to the tool.
const TAB = crypto.randomUUID ? crypto.randomUUID() : String(Math.random());
let turn = 0;
export const newest = (kind = "") => ({ tab: `${TAB}${kind}`, turn: ++turn });

// Give each part of an answer as its line comes.
export async function* parts(answer) {
  const reader = answer.body.getReader(), words = new TextDecoder();
  let left = "";
  for (;;) {
    const { done, value } = await reader.read();
    left += words.decode(value || new Uint8Array(), { stream: !done });
    const lines = left.split("\n");
    left = lines.pop();
    for (const line of lines) yield JSON.parse(line);
    if (done) return;
  }
}

// Our own SVG, as an element.
export const drawn = (svg) => document.importNode(
  new DOMParser().parseFromString(svg.includes("xmlns") ? svg : svg.replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"'), "image/svg+xml").documentElement, true);
