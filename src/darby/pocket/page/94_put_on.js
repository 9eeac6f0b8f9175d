// The place "Put on": finish and build-up, coats with every allowance on a line of its own, mixes in his measures.

function putOnPlace() {
  return el(
    "section",
    { id: "put-on", "aria-labelledby": "put-on-title" },
    el("h2", { id: "put-on-title" }, say("pocket.place.put-on")),
    state.job.walls.map(coatFields),
    allowanceFields(),
    output("mixes", (found) => (found.mixes.length ? [el("h3", {}, say("pocket.mixes")), ...found.mixes.flatMap((mix) => mixEntry(mix, found.mixes))] : [])),
  );
}

function coatFields(wall, n) {
  const at = ["walls", n];
  const [, finishes] = kindOf(wall.base).axes.find(([name]) => name === "finish");
  return el(
    "div",
    { class: "one", role: "group", "aria-labelledby": `coats-${n}-head` },
    el("h3", { id: `coats-${n}-head` }, output(`name-on-${n}`, () => [wallName(wall, n)], "span")),
    el("div", { class: "fields" }, axisField(wall, at, "finish", finishes), chooseField(wall, at)),
    output(`coats-${n}`, (found) => (found.walls[n] ? coatsOf(found.walls[n]) : [waits(found, n)])),
  );
}

function chooseField(wall, at) {
  const made = choice({ at: [...at, "choose"], label: say("pocket.wall.choose"), value: wall.choose, set: (x) => (wall.choose = x), words: waysOf(wall), wide: true });
  FIELDS.set(idOf([...at, "choose"]), made.querySelector("select"));
  return made;
}

function waysOf(wall) {
  const [best, ...others] = offersFor(wall).offers;
  return [["", say("pocket.best", { way: `word:buildup.option.${best.id}` })], ...others.map(({ id }) => [id, say(`buildup.option.${id}`)])];
}

/** The ways that are open change with the base: the list follows, and a way that is gone is the best again. */
function followWays() {
  state.job.walls.forEach((wall, n) => {
    const select = FIELDS.get(idOf(["walls", n, "choose"]));
    const words = waysOf(wall);
    if (!words.some(([id]) => id === wall.choose)) wall.choose = "";
    const texts = words.map(([id, text]) => `${id}=${text}`).join("\n");
    if (select.dataset.ways === texts) return;
    select.dataset.ways = texts;
    select.replaceChildren(...words.map(([id, text]) => el("option", { value: id, selected: id === wall.choose }, text)));
  });
}

function coatsOf(wall) {
  const { chosen, coats } = wall;
  const [least, nominal, most] = chosen.depth.map(given);
  const before = [...chosen.prep.map((code) => say(`buildup.prep.${code}`))];
  const total = { value: sum(coats.map((coat) => coat.total.value)), unit: coats[0].total.unit };
  return [
    ...chosen.cautions.map((note) => caution(noteText(note))),
    ...wall.taken.filter(([, grade]) => grade !== "assumed").map((note) => caution(noteText(note))),
    ...wall.old.notes.map(([code, grade, values]) => (grade === "fact" ? el("p", {}, say(code, values)) : caution(say(code, values)))),
    el("p", {}, chosen.reasons.map(noteText).join(" ")),
    el(
      "div",
      { class: "ledger" },
      coats.map((coat) => coatEntry(wall, coat)),
      el("div", { class: "last" }, entry(say("pocket.mortar"), quantity(total))),
      entry(say("pocket.thickness"), compare(least, most) ? `${inches(nominal)} (${between(least, most, "in")})` : inches(nominal)),
      entry(say("pocket.grounds"), inches(chosen.grounds)),
      entry(say("pocket.bead"), inches(chosen.bead)),
      ...(chosen.lath ? [entry(say("pocket.lath"), say(`buildup.lath.${chosen.lath}`))] : []),
      entry(say("pocket.weight"), shown(...chosen.weight.map((x, at) => (at ? x : given(x))))),
      entry(say("pocket.before"), `${before.length}`, list(before)),
      ...takenEntry(wall.taken.filter(([, grade]) => grade === "assumed")),
    ),
  ];
}

const takenEntry = (notes) => (notes.length ? [entry(say("pocket.taken"), `${notes.length}`, list(notes.map(noteText)))] : []);

function coatEntry({ wall, area }, coat) {
  const [least, nominal, most] = coat.depth.map(given);
  const thick = compare(least, most) ? `${inches(nominal)} (${between(least, most, "in")})` : inches(nominal);
  const rows = [[`${quantity(area)} × ${inches(nominal)}`, quantity(coat.net)]];
  for (const { name, volume, share } of coat.allowances) rows.push([say(`quantities.allowance.${name}`), quantity(volume), quantity(share)]);
  rows.push([say("quantities.volume"), quantity(coat.total)]);
  const how = [
    say("pocket.coat.thick", { thick: thick }),
    ...(coat.times.moist ? [say("pocket.coat.moist", { moist: coat.times.moist })] : []),
    ...(coat.times.wait ? [waitText(coat.times)] : []),
    say("pocket.coat.sand", { sand: `word:buildup.sand.${B.sand[wall.finish][coat.name]}` }),
    ...coat.notes.map((code) => say(`buildup.coat-note.${code}`)),
  ];
  return entry(`${say(`buildup.coat.${coat.name}`)}, ${inches(nominal)}`, quantity(coat.total), [sumOf(rows), ...list(how)]);
}

const waitText = ({ wait, within: most }) => (most ? say("pocket.coat.between", { least: wait, most }) : say("pocket.coat.wait", { wait }));

// --- allowances, mixes ------------------------------------------------------------------------------

function allowanceFields() {
  const fields = Object.entries(T.allowances).map(([name, usual]) =>
    field({
      at: ["allow", name],
      label: say(`pocket.allow.${name}`),
      hint: say("pocket.hint.allow", { usual: [usual, "%"] }),
      value: state.job.allow[name] ?? "",
      set: (x) => (state.job.allow[name] = x),
      mode: "decimal",
    }),
  );
  const customs = choice({
    at: ["custom"],
    label: say("pocket.custom"),
    value: state.job.custom,
    set: (x) => (state.job.custom = x),
    wide: true,
    words: CUSTOMS.map(({ voice }) => [voice, say(`quantities.opening-rule.${voice}`)]),
  });
  return el("details", { class: "more" }, el("summary", {}, say("pocket.allowances")), el("div", { class: "fields" }, fields, customs));
}

function mixName({ name, mix }, mixes) {
  const coat = mix.coat === "skim" ? say("word.skim") : say(`buildup.coat.${mix.coat}`);
  const suction = name.slice(mix.coat.length).trim();
  const alone = mixes.filter((one) => one.mix.coat === mix.coat).length < 2;
  return alone || !suction ? coat : say("pocket.mix.on", { coat: `word:buildup.coat.${mix.coat}`, suction });
}

function mixEntry(one, mixes) {
  const { mix, volume, batches } = one;
  const head = `${mixName(one, mixes)}: ${quantity(volume)}`;
  const named = Object.entries(mix.parts);
  const of = mix.bagged
    ? mix.bagged.name
    : `${named.map(([, part]) => parts(given(part))).join(" : ")} (${named.map(([item]) => bagOf(item)).join(", ")})`;
  const said = once(mix.notes.map(noteText));
  if (!batches) return [el("h4", {}, head), el("p", { class: mix.proposed ? "soft" : "" }, of), ...said.map(caution)];
  return [
    el("h4", {}, head),
    el("p", {}, of, mix.proposed ? ` ${say("pocket.mix.proposed")}` : ""),
    ...(batches.wholes ? [batchTable(say("pocket.batch.full", { count: `${batches.wholes}` }), mix.batch)] : []),
    ...(batches.last ? [batchTable(say(batches.wholes ? "pocket.batch.last" : "pocket.batch.only"), batches.last)] : []),
    ...list(said),
  ];
}

function batchTable(title, batch) {
  const rows = batch.of.map(([item, mass, bags]) => [bagOf(item), given(bags), `${countText(given(bags), "bags")} (${shown(given(mass), "lb")})`]);
  if (batch.sand) {
    const [count, unit] = batch.sand;
    rows.push([say("pocket.batch.sand"), given(count), countText(given(count), unit)]);
  }
  const [least, usual, most] = batch.water;
  if (usual !== null) rows.push([say("pocket.batch.water"), NONE, least === null ? shown(given(usual), "gal") : between(given(least), given(most), "gal")]);
  rows.push([say("pocket.batch.makes"), NONE, shown(given(batch.mortar), "cu ft")]);
  return el("table", { class: "batch" }, el("caption", {}, title), el("tbody", {}, rows.map(batchLine)));
}

function batchLine([name, count, text]) {
  return el("tr", {}, el("th", { scope: "row" }, name), el("td", { class: "tallies" }, tally(count)), el("td", { class: "r" }, text));
}

/** What a material is called: the trade's word, or what the bag says. */
const bagOf = (item) => sentence(`word.${item}`) ?? sentence(`quantities.item.${slug(item)}`) ?? (T.items[item]?.name || item);

/** A count in bags or buckets: halves as fractions, else as a number. */
function countText(count, unit) {
  const exact = exactly(count);
  const even = times(exact, SIXTEENTHS);
  const text = even.bottom === 1n ? mixed(exact.top, exact.bottom) : brief(count, W.otherwise);
  const word = W.printed[unit] ?? unit;
  return `${text} ${named(text === "1" && word in W.one ? W.one[word] : word)}`;
}
