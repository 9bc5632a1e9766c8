"use strict";
(async () => {
  const $ = (s) => document.querySelector(s);
  const make = (tag, more = {}, ...inside) => {
    const made = Object.assign(document.createElement(tag), more);
    made.append(...inside);
    return made;
  };
  const ask = (at, body, more = {}) => fetch(at, body === undefined ? more
    : { method: "POST", body: JSON.stringify(body), ...more });
  const told = await (await ask("/form")).json();
  let file = await (await ask("/state")).json();
  const KEY = `drafting ${file.file}`;

  // What is typed lives here and in the browser's own store; it is never lost.
  let text = file.text, seen = null, back = [], forth = [];
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) || "null");
    if (kept && kept.text) text = kept.text;
  } catch (none) { /* a store that is shut: the page works without */ }
  const keep = () => {
    try { localStorage.setItem(KEY, JSON.stringify({ text })); } catch (none) { /* likewise */ }
    const now = new Date().toTimeString().slice(0, 5);
    $("#kept").textContent = file.file && text === file.text ? `Saved in ${file.file}`
      : `${file.file ? "Not in the file yet. " : ""}Kept in this browser, ${now}`;
    $("#save").hidden = !file.file;
    $("#save").textContent = `Save to ${file.file}`;
    $("#undo").disabled = !back.length;
    $("#redo").disabled = !forth.length;
  };
  const take = (next, remember = true) => {
    if (next === text) return;
    if (remember) { back.push(text); forth = []; if (back.length > 200) back.shift(); }
    text = next;
    keep();
  };

  // The form, from the table of fields.
  const boxes = {};
  const form = $("#form"), rail = $("#rail");
  const YES = ["", "yes", "no"];
  const box = (name, f) => {
    const id = `in-${name}`;
    const choices = f.kind === "flag" ? YES : f.choices.length && f.kind === "word" ? ["", ...f.choices] : null;
    const input = choices
      ? make("select", { id }, ...choices.map((c) => make("option", { value: c, textContent: c || "—" })))
      : make("input", { id, type: "text", spellcheck: false });
    input.dataset.field = name;
    const reading = make("span", { className: "reading" }), note = make("p", { className: "note", hidden: true });
    note.id = `${id}-note`;
    input.setAttribute("aria-describedby", note.id);
    const row = make("div", { className: "row" }, input);
    if (f.kind === "clock") row.append(dial(input));
    row.append(reading);
    const label = make("label", { htmlFor: id, textContent: f.words }, make("small", { textContent: f.about }));
    const whole = make("div", { className: `field ${["text", "thread"].includes(f.kind) ? "words" : ""}` }, label, row, note);
    input.addEventListener("input", () => type(name, input.value, choices ? 0 : 150));
    input.addEventListener("focus", () => light(name, true));
    input.addEventListener("blur", () => light(name, false));
    whole.addEventListener("pointerenter", () => light(name, true));
    whole.addEventListener("pointerleave", () => document.activeElement !== input && light(name, false));
    boxes[name] = { input, reading, note, whole, f };
    return whole;
  };
  function dial(input) {
    const ns = "http://www.w3.org/2000/svg";
    const el = (tag, at) => { const e = document.createElementNS(ns, tag); for (const [k, v] of Object.entries(at)) e.setAttribute(k, v); return e; };
    const svg = el("svg", { class: "dial", viewBox: "-38 -38 76 76", tabindex: 0, role: "slider", "aria-label": "clock position", "aria-valuemin": 0, "aria-valuemax": 12 });
    const hand = el("line", { class: "hand", x1: 0, y1: 0, x2: 0, y2: -22 });
    svg.append(el("circle", { r: 26 }), hand);
    for (const h of [12, 3, 6, 9]) {
      const t = el("text", { x: 32 * Math.sin(h * Math.PI / 6), y: 3 - 32 * Math.cos(h * Math.PI / 6) });
      t.textContent = h;
      svg.append(t);
    }
    const hit = el("circle", { class: "hit", r: 38 });
    svg.append(hit);
    const put = (half) => {
      const n = ((half - 1 + 24) % 24) + 1; // half hours, 24 is 12:00
      const h = Math.floor(n / 2) || 12;
      input.value = `${h}:${n % 2 ? "30" : "00"}`;
      input.dispatchEvent(new Event("input"));
    };
    const half = () => { const m = /^(\d{1,2})(?::(\d\d))?$/.exec(input.value.trim()); return m ? (m[1] % 12) * 2 + (m[2] >= 15 && m[2] < 45 ? 1 : 0) : 0; };
    svg.addEventListener("click", (e) => {
      const r = svg.getBoundingClientRect();
      const a = Math.atan2(e.clientX - r.left - r.width / 2, r.top + r.height / 2 - e.clientY);
      put(Math.round(a / Math.PI * 12 + 24) % 24 || 24);
    });
    svg.addEventListener("keydown", (e) => {
      const step = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[e.key];
      if (step) { put((half() || 24) + step); e.preventDefault(); }
    });
    svg.show = () => {
      hand.setAttribute("transform", `rotate(${half() * 15})`);
      hand.style.visibility = input.value ? "visible" : "hidden";
      svg.setAttribute("aria-valuetext", input.value || "not said");
    };
    boxes[`${input.dataset.field} dial`] = svg;
    return svg;
  }
  for (const s of told.sections) {
    const set = make("fieldset", { id: `part-${s.key}` }, make("legend", { textContent: s.words }));
    for (const name of s.fields) set.append(box(name, told.fields[name]));
    form.append(set);
    rail.append(make("a", { href: `#part-${s.key}` }, s.words, make("small")));
  }
  form.addEventListener("submit", (e) => e.preventDefault());

  // A change goes to the tool; the newest wins, older answers are dropped.
  let waiting = 0, flying = null, pending = {}, asked = {};
  const type = (name, value, wait) => {
    pending[name] = value.trim() === "" ? null : value.trim();
    const end = name.split(".")[0];
    if (name.endsWith(".mount")) {
      const takes = told.taken[end][value] || [];
      for (const other of Object.keys(told.fields)) {
        const [t, f] = other.split(".");
        if (t === end && f !== "mount" && !takes.includes(f) && boxes[other].input.value) pending[other] = null;
      }
    }
    clearTimeout(waiting);
    waiting = setTimeout(send, wait);
  };
  const send = async () => {
    const set = asked = { ...asked, ...pending }; // what an answer that is dropped had put in, too
    pending = {};
    if (flying) flying.abort();
    const mine = flying = new AbortController();
    try {
      const answer = await ask("/look", { text, set }, { signal: mine.signal });
      const found = await answer.json();
      if (mine !== flying) return;
      asked = {};
      if (found.text !== undefined) take(found.text);
      show(found);
    } catch (gone) {
      if (gone.name === "AbortError") return;
      $("#strip").textContent = "The tool does not answer: is it still running? What you typed is kept here.";
    }
  };
  const look = (next, remember) => { if (next !== undefined) take(next, remember); pending = {}; asked = {}; send(); };

  // What came back.
  let sheets = [], tab = 0, verdict = null, stroke = 0, closed = 0, units = "in";
  function show(found) {
    const faults = found.faults || [];
    for (const [name, b] of Object.entries(boxes)) {
      if (!b.whole) continue;
      const wrong = faults.find((f) => f.field === name);
      const odd = (found.findings || []).find((f) => f.field === name && f.level !== "note");
      b.whole.classList.toggle("fault", Boolean(wrong));
      b.input.setAttribute("aria-invalid", String(Boolean(wrong)));
      b.note.hidden = !wrong && !odd;
      b.note.textContent = wrong ? wrong.message : odd ? odd.message : "";
    }
    $("#drawing").classList.toggle("waiting", faults.length > 0);
    if (faults.length) {
      const rest = faults.filter((f) => !boxes[f.field]);
      $("#strip").replaceChildren(
        make("b", { className: "fails", textContent: `${faults.length} ${faults.length > 1 ? "things do" : "thing does"} not go. ` }),
        ...faults.slice(0, 3).map((f) => go(f.field, `${f.field || `line ${f.line}`}: ${rest.includes(f) ? f.message : "look at it"}`)));
      return;
    }
    seen = found;
    sheets = found.sheets;
    verdict = found.verdict;
    units = found.units;
    stroke = found.lengths.stroke.mm;
    closed = found.lengths.retracted.mm;
    $("#name").replaceChildren(found.title || "Cylinder", make("small", { textContent: found.name }));
    document.title = `${found.name} ${found.title}`;
    for (const w of ["retracted", "extended", "stroke"]) $(`[data-length=${w}]`).textContent = found.lengths[w].words;
    fill(found);
    const v = found.verdict;
    $("#strip").replaceChildren(make("b", { className: v.word.split(" ")[0].toLowerCase() === "holds" ? "holds" : "not", textContent: `${v.word} ` }),
      v.sentence, " ", ...decisive(v).map((f) => go(f, f)));
    tabs();
    solid();
    slid();
  }
  const decisive = (v) => [...new Set(v.checks.filter((c) => c.verdict !== "holds").flatMap((c) => c.fields))].filter((f) => boxes[f]).slice(0, 3);
  const go = (name, words) => {
    const b = make("button", { type: "button", textContent: words });
    b.addEventListener("click", () => boxes[name]?.input?.focus());
    return b;
  };
  function fill(found) {
    const ends = { body_mount: found.typed["body_mount.mount"], rod_mount: found.typed["rod_mount.mount"] };
    const byRule = {};
    for (const [name, b] of Object.entries(boxes)) {
      if (!b.whole) continue;
      const [table, field] = name.split(".");
      const takes = told.taken[table]?.[ends[table]];
      b.whole.hidden = Boolean(takes) && field !== "mount" && !takes.includes(field);
      const typed = found.typed[name], value = found.values[name];
      if (document.activeElement !== b.input) {
        const shown = typed === undefined ? "" : b.f.kind === "flag" ? (typed === "true" ? "yes" : "no") : typed;
        if (b.input.value !== shown) b.input.value = shown;
      }
      const ruled = value && typed === undefined;
      if (b.input.tagName === "INPUT") b.input.placeholder = ruled ? value.words.split(" (")[0] : "";
      b.reading.textContent = !value ? "" : typed === undefined
        ? `${value.origin === "derived" || value.origin === "table" ? "D by rule: " : ""}${value.why}` : value.words;
      if (ruled && !b.whole.hidden && value.origin !== "computed") byRule[b.whole.parentNode.id] = (byRule[b.whole.parentNode.id] || 0) + 1;
      boxes[`${name} dial`]?.show();
    }
    for (const a of rail.children) {
      const n = byRule[a.hash.slice(1)];
      a.lastChild.textContent = n ? `${n} by rule` : "";
    }
  }

  // Sheets, verdicts and the text itself, one at a time.
  let at = { x: 0, y: 0, k: 1 };
  const stage = $("#drawing");
  const put = () => { if (stage.firstChild) stage.firstChild.style.transform = `translate(${at.x}px,${at.y}px) scale(${at.k})`; };
  function tabs() {
    const words = [...sheets.map((_, k) => k ? `Sheet ${k + 1}` : "Drawing"), "Will it hold?", "Text"];
    $("#tabs").replaceChildren(...words.map((w, k) => {
      const b = make("button", { type: "button", textContent: w });
      b.setAttribute("role", "tab");
      b.setAttribute("aria-selected", String(k === tab));
      b.addEventListener("click", () => { tab = k; at = { x: 0, y: 0, k: 1 }; tabs(); });
      return b;
    }));
    if (tab >= words.length) tab = 0;
    const drawn = tab < sheets.length;
    stage.hidden = !drawn;
    $("#other").hidden = drawn;
    if (drawn) {
      const page = new DOMParser().parseFromString(sheets[tab], "image/svg+xml").documentElement;
      const held = make("div");
      held.append(document.importNode(page, true));
      stage.replaceChildren(held);
      names(held);
      put();
    } else if (tab === sheets.length) verdicts();
    else words_();
  }
  function names(held) {
    for (const e of held.querySelectorAll("g[id]")) {
      const name = e.id.split(".").slice(2).join(".").replace(/-\d+$/, "");
      if (boxes[name]?.whole) {
        e.dataset.name = name;
        e.addEventListener("pointerenter", () => boxes[name].whole.classList.add("linked"));
        e.addEventListener("pointerleave", () => boxes[name].whole.classList.remove("linked"));
        e.addEventListener("click", () => { boxes[name].input.focus(); boxes[name].input.select?.(); });
      }
    }
  }
  const light = (name, on) => stage.querySelectorAll(`[data-name="${CSS.escape(name)}"]`).forEach((e) => e.classList.toggle("lit", on));
  function verdicts() {
    const v = verdict, table = make("table"), head = make("tr");
    for (const w of ["check", "factor", "asked", "verdict", "what decides"]) head.append(make("th", { textContent: w }));
    table.append(head);
    for (const c of v.checks) {
      const row = make("tr", { className: c.verdict.replace(" ", "-") });
      for (const w of [c.check, c.factor, c.asked, c.verdict]) row.append(make("td", { textContent: w }));
      const last = make("td", { textContent: `${c.decides} ` });
      for (const f of c.fields.filter((f) => boxes[f]).slice(0, 2)) last.append(go(f, f));
      row.append(last);
      table.append(row);
    }
    $("#other").replaceChildren(make("p", {}, make("b", { textContent: `${v.word} ` }), v.sentence), make("p", { textContent: v.refusal }),
      table, make("h2", { textContent: "Cautions" }), ...v.cautions.map((c) => make("p", { textContent: c })));
  }
  function words_() {
    const area = make("textarea", { value: text, spellcheck: false });
    area.setAttribute("aria-label", "the spec as text");
    let later = 0;
    area.addEventListener("input", () => { clearTimeout(later); later = setTimeout(() => look(area.value), 400); });
    if (document.activeElement?.tagName !== "TEXTAREA") $("#other").replaceChildren(area);
  }
  const zoom = (by, x, y) => {
    const k = Math.min(Math.max(at.k * by, 1), 30);
    at = k === 1 ? { x: 0, y: 0, k } : { x: x - (x - at.x) * k / at.k, y: y - (y - at.y) * k / at.k, k };
    put();
  };
  stage.addEventListener("wheel", (e) => {
    e.preventDefault();
    const r = stage.getBoundingClientRect();
    zoom(Math.exp(-e.deltaY / 400), e.clientX - r.left, e.clientY - r.top);
  }, { passive: false });
  let from = null;
  stage.addEventListener("pointerdown", (e) => { from = e; });
  stage.addEventListener("pointermove", (e) => {
    if (!from || !e.buttons) return;
    at.x += e.clientX - from.clientX;
    at.y += e.clientY - from.clientY;
    from = e;
    put();
  });
  stage.addEventListener("keydown", (e) => {
    const step = { ArrowLeft: [60, 0], ArrowRight: [-60, 0], ArrowUp: [0, 60], ArrowDown: [0, -60] }[e.key];
    if (step) { at.x += step[0]; at.y += step[1]; put(); e.preventDefault(); }
    if (e.key === "+") zoom(1.3, stage.clientWidth / 2, stage.clientHeight / 2);
    if (e.key === "-") zoom(1 / 1.3, stage.clientWidth / 2, stage.clientHeight / 2);
    if (e.key === "0") { at = { x: 0, y: 0, k: 1 }; put(); }
  });

  // The solid is made behind the drawing, when typing rests.
  let body = null, later = 0, made = "";
  function solid() {
    clearTimeout(later);
    later = setTimeout(async () => {
      if (made === text || !seen || seen.text !== text) return; // what does not go has no solid
      const own = text, answer = await ask("/solid", { text: own });
      if (!answer.ok || own !== text) return;
      const data = await answer.arrayBuffer();
      const canvas = $("#solid canvas");
      try {
        body?.free();
        const fresh = canvas.cloneNode(true);
        canvas.replaceWith(fresh);
        body = Solid.show(fresh, data, stroke);
        made = own;
        body.dark(matchMedia("(prefers-color-scheme: dark)").matches);
        body.section($("#cut").getAttribute("aria-pressed") === "true");
        new ResizeObserver(() => body.resize()).observe(fresh);
        document.documentElement.dataset.solid = "shown";
        slid();
      } catch (none) { $("#solid canvas").hidden = true; $("#none").hidden = false; }
    }, 700);
  }
  const both = (mm) => Lengths.both(mm, units);
  const slid = () => {
    const mm = stroke * $("#slide").value / 1000;
    $("#at").textContent = `At ${both(mm)} of stroke: ${both(closed + mm)}`;
    $("#slide").setAttribute("aria-valuetext", $("#at").textContent);
    body?.slide(mm);
  };
  $("#slide").addEventListener("input", slid);
  $("#cut").addEventListener("click", (e) => {
    const on = e.target.getAttribute("aria-pressed") !== "true";
    e.target.setAttribute("aria-pressed", String(on));
    body?.section(on);
  });

  // Undo, open, save, download.
  const swap = (a, b) => { if (!a.length) return; b.push(text); text = a.pop(); keep(); look(); };
  $("#undo").addEventListener("click", () => swap(back, forth));
  $("#redo").addEventListener("click", () => swap(forth, back));
  const opened = async (f) => {
    const answer = await fetch(`/open?name=${encodeURIComponent(f.name)}`, { method: "POST", body: f });
    const found = await answer.json();
    if (found.text !== undefined) look(found.text); else show(found);
  };
  $("#open").addEventListener("change", (e) => e.target.files[0] && opened(e.target.files[0]));
  addEventListener("dragover", (e) => e.preventDefault());
  addEventListener("drop", (e) => { e.preventDefault(); if (e.dataTransfer.files[0]) opened(e.dataTransfer.files[0]); });
  const save = async (mark = file.mark) => {
    const found = await (await ask("/save", { text, seen: mark })).json();
    if (found.saved) { file = found; $("#conflict").hidden = true; keep(); } else conflict(found);
  };
  $("#save").addEventListener("click", () => save());
  function conflict(found) {
    const mine = make("button", { type: "button", textContent: "keep mine" }), theirs = make("button", { type: "button", textContent: "take the file's" });
    mine.addEventListener("click", () => { file = found; save(found.mark); });
    theirs.addEventListener("click", () => { file = found; $("#conflict").hidden = true; look(found.text); });
    $("#conflict").hidden = false;
    $("#conflict").replaceChildren(found.why === "changed" || found.text ? `${found.file} was changed outside this page. ` : `Not saved: ${found.why || "see above"} `, ...(found.text ? [mine, " ", theirs] : []));
  }
  setInterval(async () => {
    if (!file.file || document.hidden) return;
    try {
      const was = file.mark, now = await (await ask("/state")).json();
      if (file.mark !== was || now.mark === was) return; // saved here meanwhile, or nothing new
      if (text === file.text) { file = now; look(now.text); } else conflict(now);
    } catch (gone) { /* said when something is typed */ }
  }, 2000);
  addEventListener("keydown", (e) => {
    if (!(e.ctrlKey || e.metaKey)) return;
    if (e.key === "s") { e.preventDefault(); if (file.file) save(); }
    if (e.key === "z" && !["INPUT", "TEXTAREA"].includes(document.activeElement?.tagName)) { e.preventDefault(); $("#undo").click(); }
  });
  const given = async (at, body) => {
    const answer = await ask(at, body);
    if (!answer.ok) { show(await answer.json()); return; }
    const name = decodeURIComponent((answer.headers.get("Content-Disposition") || "").split("''")[1] || "file");
    const link = make("a", { href: URL.createObjectURL(await answer.blob()), download: name });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  };
  const menu = [["Drawing, PDF", "pdf"], ["Drawing, DXF", "dxf"], ["Drawing, SVG", "svg"], ["Picture, PNG", "png"], ["Solids, STEP", "step"],
    ["3D model, GLB", "glb"], ["Sizes, CSV", "csv"], ["One file to look at, HTML", "html"], ["For programs, JSON", "json"]];
  for (const [words, format] of menu) {
    const b = make("button", { type: "button", textContent: words });
    b.addEventListener("click", () => { $("#download").open = false; given("/download", { text, format }); });
    $("#formats").append(b);
  }
  const spec = make("button", { type: "button", textContent: "The spec, TOML" });
  spec.addEventListener("click", () => {
    $("#download").open = false;
    const link = make("a", { href: URL.createObjectURL(new Blob([text])), download: `${seen?.name || "cylinder"}.toml` });
    link.click();
  });
  const pack = make("button", { type: "button", textContent: "Package for a quote, ZIP" });
  pack.addEventListener("click", () => { $("#download").open = false; given("/package", { text }); });
  $("#formats").append(spec, pack);

  keep();
  look();
})();
