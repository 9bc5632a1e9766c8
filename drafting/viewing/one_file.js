"use strict";
(() => {
  const $ = (s) => document.querySelector(s);
  const all = (s) => [...document.querySelectorAll(s)];
  const told = JSON.parse($("#told").textContent);

  // Files inside: packed, unpacked when they are asked for.
  const bytes = (id) => Uint8Array.from(atob(document.getElementById(id).textContent), (c) => c.charCodeAt(0));
  const unpacked = async (id) => new Uint8Array(await new Response(
    new Blob([bytes(id)]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer());
  all("[data-file]").forEach((b) => b.addEventListener("click", async () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([await unpacked(b.dataset.file)], { type: b.dataset.type }));
    link.download = b.dataset.name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  }));

  // Sheets: one at a time, zoomed about the pointer, moved by dragging.
  const frame = $(".sheets"), sheets = all(".sheets > div");
  let at = { x: 0, y: 0, k: 1 };
  const put = () => sheets.forEach((s) => { s.style.transform = `translate(${at.x}px,${at.y}px) scale(${at.k})`; });
  const zoom = (by, x, y) => {
    const k = Math.min(Math.max(at.k * by, 1), 40);
    at = { x: x - (x - at.x) * k / at.k, y: y - (y - at.y) * k / at.k, k };
    if (k === 1) at = { x: 0, y: 0, k };
    put();
  };
  const middle = (by) => zoom(by, frame.clientWidth / 2, frame.clientHeight / 2);
  const turn = (n) => {
    sheets.forEach((s, k) => { s.hidden = k !== n; });
    all("[data-page]").forEach((b, k) => b.setAttribute("aria-current", String(k === n)));
  };
  all("[data-page]").forEach((b, n) => b.addEventListener("click", () => turn(n)));
  frame.addEventListener("wheel", (e) => {
    e.preventDefault();
    const box = frame.getBoundingClientRect();
    zoom(Math.exp(-e.deltaY / 400), e.clientX - box.left, e.clientY - box.top);
  }, { passive: false });
  const touching = new Map();
  frame.addEventListener("pointerdown", (e) => { frame.setPointerCapture(e.pointerId); touching.set(e.pointerId, e); });
  frame.addEventListener("pointermove", (e) => {
    const before = touching.get(e.pointerId);
    if (!before) return;
    const others = [...touching.values()].filter((p) => p.pointerId !== e.pointerId);
    if (others.length) {
      const o = others[0], box = frame.getBoundingClientRect();
      const far = (p) => Math.hypot(p.clientX - o.clientX, p.clientY - o.clientY) || 1;
      zoom(far(e) / far(before), (e.clientX + o.clientX) / 2 - box.left, (e.clientY + o.clientY) / 2 - box.top);
    } else {
      at.x += e.clientX - before.clientX;
      at.y += e.clientY - before.clientY;
      put();
    }
    touching.set(e.pointerId, e);
  });
  ["pointerup", "pointercancel"].forEach((w) => frame.addEventListener(w, (e) => touching.delete(e.pointerId)));
  frame.addEventListener("keydown", (e) => {
    const step = { ArrowLeft: [60, 0], ArrowRight: [-60, 0], ArrowUp: [0, 60], ArrowDown: [0, -60] }[e.key];
    if (step) { at.x += step[0]; at.y += step[1]; put(); e.preventDefault(); }
    if (e.key === "+" || e.key === "=") middle(1.3);
    if (e.key === "-") middle(1 / 1.3);
    if (e.key === "0") { at = { x: 0, y: 0, k: 1 }; put(); }
  });
  turn(0);

  // The solid: the two lengths follow the slider.
  const slider = $(".slide input"), out = $(".slide output");
  let solid = null, playing = 0;
  const words = (mm) => Lengths.both(mm, told.units);
  const slid = () => {
    const mm = told.stroke_mm * slider.value / 1000;
    out.textContent = `out ${words(mm)}, between datums ${words(told.retracted_mm + mm)}`;
    slider.setAttribute("aria-valuetext", out.textContent);
    if (solid) solid.slide(mm);
  };
  slider.addEventListener("input", slid);
  const play = (on) => {
    cancelAnimationFrame(playing);
    playing = 0;
    $("[data-do=play]").setAttribute("aria-pressed", String(on));
    if (!on) return;
    const start = performance.now() - Math.acos(1 - slider.value / 500) / Math.PI * 4000;
    const step = (now) => {
      slider.value = 500 * (1 - Math.cos(Math.PI * (now - start) / 4000));
      slid();
      playing = requestAnimationFrame(step);
    };
    playing = requestAnimationFrame(step);
  };
  slid();
  const shown = async () => {
    const canvas = $(".stage canvas");
    try {
      solid = Solid.show(canvas, (await unpacked(told.glb)).buffer, told.stroke_mm);
    } catch (none) {
      canvas.hidden = true;
      $(".still").hidden = false;
      return;
    }
    const dark = matchMedia("(prefers-color-scheme: dark)");
    const shade = () => solid.dark(dark.matches);
    dark.addEventListener("change", shade);
    shade();
    slid();
    new ResizeObserver(() => solid.resize()).observe(canvas);
    document.documentElement.dataset.solid = "shown";
  };
  if (told.glb) shown();

  const jobs = {
    in: () => middle(1.4),
    out: () => middle(1 / 1.4),
    fit: () => { at = { x: 0, y: 0, k: 1 }; put(); },
    play: (b) => play(b.getAttribute("aria-pressed") !== "true"),
    section: (b) => {
      const on = b.getAttribute("aria-pressed") !== "true";
      b.setAttribute("aria-pressed", String(on));
      if (solid) solid.section(on);
    },
    copy: async (b) => {
      const text = $("#spec pre").textContent;
      try { await navigator.clipboard.writeText(text); } catch (refused) {
        const area = Object.assign(document.createElement("textarea"), { value: text });
        document.body.append(area);
        area.select();
        document.execCommand("copy");
        area.remove();
      }
      b.textContent = "copied";
    },
  };
  all("[data-do]").forEach((b) => b.addEventListener("click", () => jobs[b.dataset.do](b)));
  all("[data-turn]").forEach((b) => b.addEventListener("click", () => solid && solid.turn(...b.dataset.turn.split(",").map(Number))));
})();
