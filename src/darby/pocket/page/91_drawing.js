// The wall to scale, as it is seen from outside, with its openings where the sheet stands them.

const D = T.drawing;

function mark(name, attributes, ...children) {
  const made = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

const path = (role, d) => mark("path", { class: role, d });
const lettering = (role, x, y, text, more = {}) => mark("text", { class: role, x, y, ...more }, text);

/** The elevation of a wall. */
function elevation({ n, wall, sizes, places, chosen }) {
  const [long, high, peak] = [sizes.long, sizes.high, sizes.gable].map(float);
  const scale = Math.min((D.width - D.left - D.right) / long, D.tallest / (high + peak));
  const [left, top] = [D.left, D.top + peak * scale];
  const [right, base] = [left + long * scale, top + high * scale];
  const tall = base + D.below;
  const outline = `M${left} ${base}V${top}L${(left + right) / 2} ${D.top}L${right} ${top}V${base}Z`;
  const drawn = mark("svg", {
    class: "elevation",
    viewBox: `0 0 ${D.width} ${tall}`,
    width: D.width,
    height: tall,
    role: "img",
    "aria-label": say("pocket.drawing", {
      name: wallName(wall, n),
      length: [sizes.long, "ft-in"],
      height: [sizes.high, "ft-in"],
      openings: [new Ratio(BigInt(places.length)), "openings"],
    }),
  });
  drawn.append(...ground(wall.base === "block" && !chosen.lath, chosen.lath, n, left, base, scale), mark("path", { class: "field", d: outline, fill: `url(#base-${n})` }));
  for (const place of places) drawn.append(...hole(place, left, base, scale));
  drawn.append(path("outline", outline), path("apron", `M${left - D.tick} ${base}H${right + D.tick}`));
  drawn.append(...across(left, right, base, sizes.long), ...upright(right, top, base, sizes.high));
  return drawn;
}

/** Block coursing from the lower left, or the diamonds of lath. */
function ground(block, lathed, n, left, base, scale) {
  const [wide, high] = block ? [D.block[0] * scale, D.block[1] * scale * 2] : [D.diamond, D.diamond * 2];
  if (!lathed && (!block || high < D.diamond)) return [];
  const half = high / 2;
  const course = `M0 0H${wide}M0 ${half}H${wide}M0 0V${half}M${wide / 2} ${half}V${high}`;
  const lath = `M0 ${half}L${wide / 2} 0L${wide} ${half}L${wide / 2} ${high}Z`;
  const at = { width: wide, height: high, patternUnits: "userSpaceOnUse", patternTransform: `translate(${left} ${base})` };
  return [mark("defs", {}, mark("pattern", { id: `base-${n}`, ...at }, path(block ? "course" : "lath", block ? course : lath)))];
}

function hole({ wide, high, at, up }, left, base, scale) {
  const [x, y] = [left + float(at) * scale, base - float(add(up, high)) * scale];
  const [width, height] = [float(wide) * scale, float(high) * scale];
  const drawn = [mark("rect", { class: "opening", x, y, width, height })];
  const size = `${sizeText(wide)} × ${sizeText(high)}`;
  if (size.length * D.letter < width) drawn.push(lettering("size", x + width / 2, y + height / 2, size));
  return drawn;
}

const sizeText = (value) => (state.system === "metric" ? shown(value, "m") : feetAndInches(value, true));

function across(left, right, base, value) {
  const y = base + D.string;
  const ticks = [left, right].map((x) => `M${x - D.tick} ${y + D.tick}L${x + D.tick} ${y - D.tick}`).join("");
  return [
    path("dimension", `M${left} ${base + D.tick}V${y + D.tick}M${right} ${base + D.tick}V${y + D.tick}M${left} ${y}H${right}`),
    path("tick", ticks),
    lettering("figure", (left + right) / 2, y - D.lift, sizeText(value)),
  ];
}

function upright(right, top, base, value) {
  const x = right + D.string;
  const ticks = [top, base].map((y) => `M${x - D.tick} ${y + D.tick}L${x + D.tick} ${y - D.tick}`).join("");
  const [cx, cy] = [x - D.lift, (top + base) / 2];
  return [
    path("dimension", `M${right + D.tick} ${top}H${x + D.tick}M${right + D.tick} ${base}H${x + D.tick}M${x} ${top}V${base}`),
    path("tick", ticks),
    lettering("figure", cx, cy, sizeText(value), { transform: `rotate(-${D.quarter} ${cx} ${cy})` }),
  ];
}

/** Tally marks, as the crew keeps a count: four strokes and one across. */
function tally(count) {
  const exact = exactly(count);
  const strokes = Number(floor(exact));
  if (!strokes || strokes > D.tallies || times(exact, TWO).bottom !== 1n) return [];
  let d = "";
  let x = D.stroke;
  for (let n = 0; n < strokes; n += 1) {
    const fifth = n % D.hand === D.hand - 1;
    d += fifth ? `M${x - D.hand * D.stroke} ${D.stroke * 2}L${x} ${D.mark}` : `M${x} 0V${D.mark + D.stroke}`;
    x += fifth ? D.stroke * 2 : D.stroke;
  }
  return [mark("svg", { class: "tally", width: x, height: D.mark + D.stroke, "aria-hidden": "true" }, path("stroke", d))];
}
