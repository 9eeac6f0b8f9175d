// What was typed, as a job file that the core reads.

/** Text without what a file cannot hold: control characters, halves of characters, more than is read. */
function cleaned(text) {
  const plain = text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]/g, " ").trim();
  const whole = Array.from(plain).filter((char) => !/^[\ud800-\udfff]$/.test(char));
  return whole.slice(0, R.longestText).join("").trim();
}

const quoted = (text) => JSON.stringify(text);

/** The job that was typed, as far as it can be read. */
function jobFile(job, found) {
  const head = [`name = ${quoted(cleaned(job.name) || say("pocket.job.unnamed"))}`, `as_of = ${job.day || T.made.day}`];
  if (T.made.firm) head.push(`firm = ${quoted(T.made.firm)}`);
  const lines = [`# ${say("pocket.job.made", { book: T.made.book, version: T.made.version })}`];
  lines.push(`# ${say("pocket.job.places")}`, "darby = 1", "", "[job]", ...head, "");
  lines.push(...firmOf(job, found));
  for (const wall of found.good) lines.push(...wallTable(wall));
  for (const wall of found.good) lines.push(...coatsTable(wall));
  return lines.join("\n");
}

/** What the sheet says otherwise than the firm's file. */
function firmOf(job, found) {
  const lines = [];
  if (state.system !== T.made.system) lines.push("[firm]", `system = "${state.system}"`, "");
  if (found.custom !== CUSTOMS[0]) lines.push("[firm.follow]", `openings = "${found.custom.voice}"`, "");
  const said = Object.keys(T.allowances).filter((name) => (job.allow[name] ?? "").trim());
  if (said.length && found.shares) {
    lines.push("[firm.allow]", ...said.map((name) => `${name} = "${percent(found.shares[name])}"`), "");
  }
  return lines;
}

function percent(share) {
  const size = over(share, UNITS["%"].scale);
  return `${size.bottom === 1n ? size.top : `${size.top}/${size.bottom}`} %`;
}

function wallTable({ id, wall, sizes, places }) {
  const lines = ["[[wall]]", `id = "${id}"`];
  if (cleaned(wall.name)) lines.push(`name = ${quoted(cleaned(wall.name))}`);
  lines.push(`length = ${JSON.stringify(lengthWritten(sizes.long))}`, `height = ${JSON.stringify(lengthWritten(sizes.high))}`);
  if (positive(sizes.gable)) lines.push(`gable = ${JSON.stringify(lengthWritten(sizes.gable))}`);
  if (compare(sizes.faces, ONE)) lines.push(`count = ${sizes.faces.top}`);
  lines.push(`base = "${wall.base}"`);
  for (const [name] of kindOf(wall.base).axes) {
    if (wall[name] && !T.inCoats.includes(name)) lines.push(`${name} = ${axisValue(name, wall[name])}`);
  }
  if (wall.old) {
    const proud = wall.proud.trim() ? `, proud = ${JSON.stringify(lengthWritten(length(wall.proud)))}` : "";
    lines.push(`${wall.old} = { kind = "meets old work"${proud} }`);
  }
  if (places.length) lines.push("openings = [", ...places.map((place) => `  ${JSON.stringify(openingLine(place))},`), "]");
  return [...lines, ""];
}

/** The word of a choice as a job file has it; tests are a table. */
function axisValue(name, word) {
  if (name !== "tests") return `"${word}"`;
  const tried = Object.entries(T.tests[word]).map(([test, came]) => `${test} = "${came}"`);
  return `{ ${tried.join(", ")} }`;
}

function openingLine({ kind, wide, high, at, up, reveal, said }) {
  const sill = kind === "door" && !up.top ? "" : `, up ${lengthWritten(up)}`;
  const deep = said ? `, reveal ${lengthWritten(reveal)}` : "";
  return `${kind} ${lengthWritten(wide)} x ${lengthWritten(high)} at ${lengthWritten(at)}${sill}${deep}`;
}

/** Whether a word is said of this base at all. */
const saidOf = (wall, name) => name === "choose" || kindOf(wall.base).axes.some(([axis]) => axis === name);

function coatsTable({ id, wall }) {
  const lines = ["[[coats.on]]", `surface = "${id}"`];
  for (const name of T.inCoats) if (wall[name] && saidOf(wall, name)) lines.push(`${name} = "${wall[name]}"`);
  return [...lines, ""];
}
