// The place "Wall": what was measured, one wall after the other.

const newWall = () => ({
  name: "",
  size: "",
  gable: "",
  faces: "1",
  base: B.kinds[0].base,
  ...Object.fromEntries([...B.kinds].reverse().flatMap((kind) => kind.axes.map(([name, words]) => [name, words[0]]))),
  choose: "",
  old: "",
  proud: "",
  openings: [],
});
const newOpening = () => ({ kind: T.openingKinds[0], size: "", count: "1", reveal: "" });
const wallName = (wall, n) => wall.name.trim() || say("pocket.wall.nth", { n: `${n + 1}` });

function wallPlace() {
  const walls = state.job.walls.map(wallFields);
  const another = press(say("pocket.wall.another"), () => {
    state.job.walls.push({ ...newWall(), ...baseOf(state.job.walls[state.job.walls.length - 1]) });
    render(`walls-${state.job.walls.length - 1}-size`);
  }, { id: "another-wall" });
  return el("section", { id: "wall", "aria-labelledby": "wall-title" }, el("h2", { id: "wall-title" }, say("pocket.place.wall")), walls, el("p", {}, another));
}

/** What walls of one house have in common. */
function baseOf(wall) {
  const { base, block, joints, sheathing, brick, behind, finish } = wall;
  return { base, block, joints, sheathing, brick, behind, finish };
}

function wallFields(wall, n) {
  const at = ["walls", n];
  const text = (name, more = {}) =>
    field({ at: [...at, name], label: say(`pocket.wall.${name}`), value: wall[name], set: (x) => (wall[name] = x), ...more });
  const fields = [
    text("name"),
    text("size", { hint: "24' x 12', 7.2 x 3.6 m" }),
    text("gable", { hint: say("pocket.hint.gable") }),
    text("faces", { hint: say("pocket.hint.faces"), mode: "numeric" }),
    choice({ at: [...at, "base"], label: say("pocket.wall.base"), value: wall.base, set: (x) => (wall.base = x), again: true, words: B.kinds.map(({ base }) => [base, say(`pocket.base.${slug(base)}`)]) }),
    ...kindOf(wall.base).axes.filter(([name]) => name !== "finish").map(([name, words]) => axisField(wall, at, name, words)),
  ];
  const off = press(say("pocket.wall.off"), () => {
    state.job.walls.splice(n, 1);
    render("wall-title");
  });
  const several = state.job.walls.length > 1;
  return el(
    "div",
    { class: "one", role: "group", "aria-labelledby": `wall-${n}-head` },
    el("h3", { id: `wall-${n}-head` }, output(`name-${n}`, () => [wallName(wall, n)], "span")),
    el("div", { class: "fields" }, fields),
    openingFields(wall, at),
    oldFields(wall, at),
    output(`measured-${n}`, (found) => measured(found, n)),
    several ? el("p", {}, off) : "",
  );
}

const slug = (words) => words.replace(/ /g, "-");

function axisField(wall, at, name, words) {
  return choice({
    at: [...at, name],
    label: say(`pocket.wall.${name}`),
    value: wall[name],
    set: (x) => (wall[name] = x),
    words: words.map((word) => [word, axisWord(name, word)]),
  });
}

function axisWord(name, word) {
  if (!word) return say(`pocket.unsaid.${name}`);
  return name === "out_of_plane" ? shown(length(word), "in") : say(`pocket.${name}.${slug(word)}`);
}

function openingFields(wall, at) {
  const rows = wall.openings.map((opening, n) => {
    const here = (name) => [...at, "openings", n, name];
    const text = (name, more = {}) =>
      field({ at: here(name), label: say(`pocket.opening.${name}`), value: opening[name], set: (x) => (opening[name] = x), ...more });
    const off = press(say("pocket.opening.off"), () => {
      wall.openings.splice(n, 1);
      render(`${idOf(at)}-openings`);
    });
    return el(
      "fieldset",
      { class: "opening" },
      el("legend", {}, say("pocket.opening.nth", { n: `${n + 1}` })),
      choice({ at: here("kind"), label: say("pocket.opening.kind"), value: opening.kind, set: (x) => (opening.kind = x), words: T.openingKinds.map((kind) => [kind, say(`pocket.kind.${kind}`)]) }),
      text("size", { hint: "3068, 3' x 4'" }),
      text("count", { mode: "numeric" }),
      text("reveal", { hint: say("pocket.hint.reveal") }),
      off,
    );
  });
  const another = press(
    say("pocket.opening.another"),
    () => {
      wall.openings.push(newOpening());
      render(idOf([...at, "openings", wall.openings.length - 1, "size"]));
    },
    { id: `${idOf(at)}-openings`, "aria-describedby": `${idOf(at)}-openings-fault` },
  );
  FIELDS.set(`${idOf(at)}-openings`, another);
  return el("div", { class: "openings" }, rows, el("p", { class: "fault", id: `${idOf(at)}-openings-fault` }), el("p", {}, another));
}

function oldFields(wall, at) {
  const side = choice({ at: [...at, "old"], label: say("pocket.wall.old"), value: wall.old, set: (x) => (wall.old = x), again: true, words: ["", "left", "right"].map((word) => [word, say(`pocket.old.${word || "none"}`)]) });
  const proud = wall.old
    ? field({ at: [...at, "proud"], label: say("pocket.wall.proud"), hint: say("pocket.hint.proud"), value: wall.proud, set: (x) => (wall.proud = x) })
    : "";
  return el("div", { class: "fields" }, side, proud);
}

/** What a wall waits for: its size, or something that was typed, of it or of what all walls allow, and cannot be read. */
function waits({ faults, shares }, n) {
  const typed = !shares || faults.some(({ at: [, wall], code }) => wall === n && code !== "measure.empty");
  return el("p", { class: "asks" }, say(typed ? "pocket.wall.mend" : "pocket.wall.asks"));
}

/** The wall drawn, and its area by the custom. */
function measured(found, n) {
  const wall = found.walls[n];
  if (!wall) return [waits(found, n)];
  const reveals = wall.reveals.value ? [entry(say("quantities.area-reveals"), quantity(wall.reveals))] : [];
  const off = wall.places.length ? [entry(say("quantities.area-off"), quantity(wall.off)), ...reveals] : [];
  return [
    el("div", { class: "drawing" }, elevation(wall)),
    el("div", { class: "ledger" }, entry(say("quantities.area-gross"), quantity(wall.gross)), off, el("div", { class: "last" }, entry(say("pocket.to-plaster"), quantity(wall.area)))),
  ];
}
