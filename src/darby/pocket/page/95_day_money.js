// The places "Day" and "Money", the questions, and the job file.

function dayPlace() {
  const day = field({ at: ["start"], label: say("pocket.day.start"), value: state.job.day, set: (x) => (state.job.day = x), type: "date" });
  return el(
    "section",
    { id: "day", "aria-labelledby": "day-title" },
    el("h2", { id: "day-title" }, say("pocket.place.day")),
    el("div", { class: "fields" }, day),
    output("dates", (found) => found.good.flatMap((wall) => datesEntry(wall, found.dates.get(wall.id)))),
    output("dangers", (found) => (found.dangers.length ? [el("h3", {}, say("pocket.cautions")), ...found.dangers.map((note) => caution(noteText(note)))] : [])),
    aside(say("pocket.day.no-weather")),
  );
}

function datesEntry({ wall, n, coats }, dates) {
  if (!dates) return [];
  const rows = coats.flatMap((coat, at) => {
    const { on, damp } = dates[at];
    const times = coat.times;
    const waits = times.wait ? [waitText(times)] : [];
    const keep = damp ? [say("pocket.day.damp", { moist: times.moist, until: dateText(damp) })] : [];
    return [entry(say(`buildup.coat.${coat.name}`), dateText(on)), ...[...keep, ...waits].map((text) => el("p", { class: "src in" }, text))];
  });
  return [el("h3", {}, wallName(wall, n)), el("div", { class: "ledger" }, rows)];
}

function moneyPlace() {
  return el(
    "section",
    { id: "money", "aria-labelledby": "money-title" },
    el("h2", { id: "money-title" }, say("pocket.place.money")),
    T.made.prices ? caution(say("pocket.prices.warning")) : "",
    output("order", orderEntries),
    aside(say("pocket.order.not-all")),
    T.made.prices ? aside(say("pocket.prices.not-all")) : aside(say("pocket.prices.none")),
    jobPlace(),
  );
}

function orderEntries(found) {
  if (!found.order.length) return [el("p", { class: "asks" }, say("pocket.wall.asks"))];
  const area = sum(found.good.map((wall) => wall.area.value));
  const total = found.material === undefined ? [] : [el("div", { class: "last" }, entry(say("pocket.material"), shown(found.material, "$")))];
  const usual = T.made.usual ? [entry(say("pocket.usual"), usualText(area))] : [];
  return [el("div", { class: "ledger" }, found.order.map(orderEntry), total, usual)];
}

function usualText(area) {
  const [low, high] = T.made.usual.map((each) => cents(T.lines.usual.formula, { area, usual: given(each) }));
  return `${shown(low, "$")} ${named("to")} ${shown(high, "$")}`;
}

function orderEntry(need) {
  const item = T.items[need.item];
  const name = item.name || say(item.says);
  const more = [[say("quantities.needed"), quantity(need.needed)]];
  if (need.room) more.push([say("quantities.bulking-within"), quantity(need.room)]);
  if (need.moisture) more.push([say("quantities.sand-moisture"), quantity(need.moisture)]);
  if (need.tons) more.push([say("quantities.sand-mass"), quantity(need.tons)]);
  if (need.cutting) more.push([say("quantities.cutting"), quantity(need.cutting)]);
  if (need.laps) more.push([say("quantities.paper-laps"), quantity(need.laps)]);
  if (need.exact) more.push([say("quantities.packages-exact"), quantity(need.exact)]);
  if (need.packages) more.push([say(item.each ? "quantities.packages-whole" : "quantities.packages-part"), packagesText(need, item)]);
  if (need.cost) more.push([say("pocket.cost"), shown(need.cost, "$")]);
  const value = need.packages ? packagesText(need, item) : quantity(need.needed);
  return entry(name[0].toUpperCase() + name.slice(1), need.cost ? `${value}, ${shown(need.cost, "$")}` : value, [sumOf(more)]);
}

/** "14 × 94 lb bag"; loose goods by the yard or the ton alone. */
function packagesText({ packages }, { written: package_, each }) {
  const text = quantity(packages);
  if (!package_) return text;
  return each ? `${text.split(" ")[0]} × ${package_}` : `${text} ${package_}`;
}

// --- the job file -----------------------------------------------------------------------------------

function jobPlace() {
  const name = field({ at: ["name"], label: say("pocket.job.name"), value: state.job.name, set: (x) => (state.job.name = x) });
  const text = el("textarea", { id: "job-text", readOnly: true, spellcheck: "false", rows: "8", "aria-labelledby": "job-title" });
  const actions = [press(say("pocket.job.save"), saveJob), press(say("pocket.job.copy"), copyJob)];
  if (navigator.share) actions.push(press(say("pocket.job.share"), shareJob));
  return el(
    "div",
    { class: "one", role: "group", "aria-labelledby": "job-title" },
    el("h3", { id: "job-title" }, say("pocket.job.title")),
    el("p", {}, say(T.made.firm ? "pocket.job.how-firm" : "pocket.job.how", { firm: T.made.firm })),
    el("div", { class: "fields" }, name),
    text,
    el("p", { class: "actions" }, actions),
    el("p", { id: "job-done", role: "status" }),
  );
}

const jobName = () => `${plainWords(state.job.name).join("-") || "walls"}.toml`;
const jobText = () => document.getElementById("job-text").value;
const done = (code) => (document.getElementById("job-done").textContent = say(code, { file: jobName() }));

function saveJob() {
  const address = URL.createObjectURL(new Blob([jobText()], { type: "text/plain" }));
  el("a", { href: address, download: jobName() }).click();
  URL.revokeObjectURL(address);
  done("pocket.job.saved");
}

function copyJob() {
  const text = document.getElementById("job-text");
  text.select();
  document.execCommand("copy");
  done("pocket.job.copied");
}

const shareJob = () => navigator.share({ title: jobName(), text: jobText() }).catch(() => {});

// --- questions --------------------------------------------------------------------------------------

function questionsPlace() {
  if (!T.questions[state.language]?.length) return "";
  const ask = el("input", { id: "ask", type: "search", autocomplete: "off", oninput: (event) => { state.ask = event.target.value; fillQuestions(); } });
  ask.value = state.ask;
  return el(
    "section",
    { id: "questions", "aria-labelledby": "questions-title" },
    el("h2", { id: "questions-title" }, say("pocket.place.questions")),
    el("div", { class: "field wide" }, el("label", { for: "ask" }, say("pocket.ask")), ask, el("p", { class: "hint" }, say("pocket.hint.ask"))),
    el("p", { id: "asked", role: "status" }),
    el("div", { id: "answers", class: "ledger" }),
  );
}

function fillQuestions() {
  const place = document.getElementById("answers");
  if (!place) return;
  const found = questionsFor(state.ask);
  const code = found.length ? (state.ask.trim() ? "pocket.asked" : "pocket.asked-all") : "pocket.asked-nothing";
  document.getElementById("asked").textContent = say(code, { count: `${found.length}` });
  place.replaceChildren(...found.map(questionEntry));
}

function questionEntry({ asked, told }) {
  const said = told.flatMap(([code, texts]) => toldPart(code, texts.map(inSystem)));
  return el("details", { class: "row ask" }, el("summary", {}, el("span", { class: "nm" }, asked)), el("div", { class: "working" }, said));
}

function toldPart(code, texts) {
  const [text] = texts;
  if (!code) return [el("p", {}, text)];
  if (code === "ask.apprentice") return [aside(say(code, { more: text }))];
  if (code === "ask.caution") return [aside(say(code, { caution: text }))];
  return [el("h3", {}, say(code)), ...(texts.length > 1 ? list(texts) : [el("p", {}, text)])];
}
