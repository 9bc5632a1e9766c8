"use strict";
// A length in both units, as the tool writes one: inches to 1/64, millimetres to 0.1.
var Lengths = {
  both(mm, units) {
    const n = Math.round(mm / 25.4 * 64), whole = Math.floor(n / 64);
    let top = n % 64, low = 64;
    while (top && top % 2 === 0) { top /= 2; low /= 2; }
    const inch = [whole || !top ? whole : "", top ? `${top}/${low}` : ""].filter((w) => w !== "").join(" ") + " in";
    const metric = `${(mm + 1e-9).toFixed(1)} mm`;
    return units === "in" ? `${inch} (${metric})` : `${metric} (${inch})`;
  },
};
