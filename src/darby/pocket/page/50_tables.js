// What the core answered for everything that can be chosen, unpacked on the way.

const B = T.builds;
/** Counts from their steps. */
function counts(steps) {
  let at = 0;
  return steps.map((step) => (at += step));
}

const ROWS = new Map();

/** The n-th row of a table: its values by the names of its columns. */
function row(table, n) {
  if (!ROWS.has(table)) ROWS.set(table, Object.entries(table).map(([name, { values, rows }]) => [name, values, counts(rows)]));
  return Object.fromEntries(ROWS.get(table).map(([name, values, rows]) => [name, values[rows[n]]]));
}

const kindOf = (base) => B.kinds.find((kind) => kind.base === base) ?? B.kinds[0];
const OF = counts(B.of);
const LISTS = listsOf(B.lists);

function listsOf({ sizes, of }) {
  const all = counts(of);
  let at = 0;
  return sizes.map((size) => all.slice(at, (at += size)));
}

/** Where the choice of a wall stands among all that were asked of the core. */
function choiceOf(wall) {
  let at = 0;
  for (const kind of B.kinds) {
    const size = kind.axes.reduce((many, [, words]) => many * words.length, 1);
    if (kind.base === wall.base) {
      const within = kind.axes.reduce((n, [name, words]) => n * words.length + wordAt(words, wall[name]), 0);
      return OF[at + within];
    }
    at += size;
  }
  throw new Error(`no such base: ${wall.base}`);
}

const wordAt = (words, word) => Math.max(words.indexOf(word), 0);

/** The ways to build a wall up, best first, and what was taken for granted of its base. */
function offersFor(wall) {
  const [taken, ...offers] = LISTS[choiceOf(wall)];
  return { taken: row(B.taken, taken).notes.map((n) => B.notes[n]), offers: offers.map(offer) };
}

function offer(n) {
  const { way, body, why } = row(B.offers, n);
  const [ways, bodies, whys] = [row(B.ways, way), row(B.bodies, body), row(B.whys, why)];
  return {
    ...ways,
    ...bodies,
    takes: T.takes[ways.takes],
    coats: bodies.coats.map((coat) => row(B.coats, coat)),
    reasons: whys.reasons.map((note) => B.notes[note]),
    cautions: whys.cautions.map((note) => B.notes[note]),
  };
}

/** The way that was chosen for a wall, or the best. */
function chosenFor(wall) {
  const { taken, offers } = offersFor(wall);
  return { taken, offers, chosen: offers.find((one) => one.id === wall.choose) ?? offers[0] };
}
