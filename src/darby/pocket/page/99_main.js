// The page as a whole: what is kept, how it is drawn, and how it follows what is typed.

const KEPT = "darby-pocket";
const today = () => {
  const now = new Date();
  return isoDay(new Date(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate())));
};
const newJob = () => ({ name: "", day: today(), custom: CUSTOMS[0].voice, allow: {}, walls: [newWall()] });
const state = { language: T.made.language, system: T.made.system, evening: false, ask: "", open: new Set(), job: newJob() };

/** What was typed before, where this phone keeps it for a file; a sheet made anew starts anew. */
function remembered() {
  try {
    const kept = JSON.parse(localStorage.getItem(KEPT));
    if (kept?.made === T.made.id) Object.assign(state, kept.state, { open: new Set() });
  } catch {
    // nothing is kept here: the sheet works all the same
  }
}

function remember() {
  try {
    localStorage.setItem(KEPT, JSON.stringify({ made: T.made.id, state: { ...state, open: [] } }));
  } catch {
    // as above
  }
}

function header() {
  const other = state.language === "en" ? "es" : "en";
  const switches = [
    press(T.words[other]["pocket.language"], () => change({ language: other }), { class: "switch", id: "language", lang: other }),
    toggle(say("pocket.metric"), state.system === "metric", () => change({ system: state.system === "metric" ? "us" : "metric" }), { id: "metric" }),
    toggle(say("pocket.evening"), state.evening, () => change({ evening: !state.evening }), { id: "evening" }),
  ];
  const clear = press(say("pocket.clear"), () => change({ job: newJob(), ask: "" }), { class: "switch", id: "clear" });
  return el(
    "header",
    { class: "sheet" },
    el("p", { class: "firm" }, T.made.name || say("pocket.no-firm")),
    el("h1", {}, say("pocket.title")),
    el("p", { class: "sub" }, say("pocket.sub")),
    el("p", { class: "switches" }, switches, clear),
  );
}

/** The rod: four places, plain links. */
function rod() {
  const places = ["wall", "put-on", "day", "money"];
  const marks = places.map((place) => el("li", {}, el("a", { href: `#${place}` }, say(`pocket.place.${place}`))));
  return el("nav", { class: "rod", "aria-label": say("pocket.places") }, el("ol", {}, marks));
}

const footer = () =>
  el("footer", { class: "law" }, el("p", {}, say("common.local-code")), T.made.invented ? el("p", {}, say("common.invented")) : "", el("p", {}, say("pocket.made", { book: T.made.book, version: T.made.version })));

function change(what) {
  const id = document.activeElement?.id;
  Object.assign(state, what);
  render(id);
}

/** Draws the page anew and sets the focus where it was, or where it belongs now. */
function render(focus = document.activeElement?.id) {
  OUTPUTS.clear();
  FIELDS.clear();
  document.documentElement.lang = state.language;
  document.documentElement.dataset.look = state.evening ? "evening" : "day";
  document.title = say("pocket.title");
  const jump = T.questions[state.language]?.length ? el("p", { class: "jump" }, el("a", { href: "#questions" }, say("pocket.place.questions"))) : "";
  const main = el("main", {}, jump, wallPlace(), putOnPlace(), dayPlace(), moneyPlace(), questionsPlace());
  document.getElementById("sheet").replaceChildren(header(), main, footer(), rod());
  update();
  fillQuestions();
  const there = focus && document.getElementById(focus);
  if (there) {
    if (/^H[1-6]$/.test(there.tagName)) there.tabIndex = -1;
    there.focus();
  }
}

/** Answers what is typed, and fills in every place that follows from it. */
function update() {
  followWays();
  const found = answer(state.job);
  showFaults(found.faults);
  for (const [id, make] of OUTPUTS) {
    filling.id = id;
    document.getElementById(id)?.replaceChildren(...make(found).flat());
  }
  document.getElementById("job-text").value = found.good.length ? jobFile(state.job, found) : "";
  remember();
}

function showFaults(faults) {
  const said = new Map(faults.map((fault) => [idOf(fault.at), fault]));
  for (const [id, input] of FIELDS) {
    const fault = said.get(id);
    const empty = fault && fault.code === "measure.empty";
    const place = document.getElementById(`${id}-fault`);
    if (!place) continue;
    place.textContent = fault && !empty ? faultText(fault) : "";
    if (fault && !empty) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
  }
}

const faultText = ({ code, found, allowed }) => say(code, { place: "", found, allowed }).replace(/^: /, "").replace(/^./, (c) => c.toUpperCase());

window.addEventListener("beforeprint", () => document.querySelectorAll("details").forEach((one) => (one.open = true)));
remembered();
render("");

/** Reads a measure for whoever checks the sheet: exact text, or what is refused. */
function readBack(read, text) {
  try {
    return [read(text)].flat().map(({ top, bottom }) => `${top}/${bottom}`);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    return error.code;
  }
}

/** For whoever checks the sheet: the same code that the form uses. */
window.darby = {
  state,
  change,
  printed: (job) => printedAnswer(answer(job)),
  jobFile: (job) => jobFile(job, answer(job)),
  shown: (value, unit) => shown(given(value), unit),
  length: (text) => readBack(length, text),
  opening: (text) => readBack(openingSize, text),
  share: (text) => readBack(shareOf, text),
  written: (value) => lengthWritten(given(value)),
  float: (text) => float(given(text)),
  questions: (text) => questionsFor(text).map(({ asked }) => asked),
};
