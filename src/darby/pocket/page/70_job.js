// All walls together: mixes and batches, what is ordered, dates, cautions. Packages are rounded once, on the total.

const CUSTOMS = T.customs;
const customOf = (job) => CUSTOMS.find((one) => one.voice === job.custom) ?? CUSTOMS[0];

/** Shares of the allowances: as typed here, else the firm's or the book's. */
function sharesOf(job, faults) {
  const shares = {};
  for (const [name, usual] of Object.entries(T.allowances)) {
    const typed = job.allow[name] ?? "";
    shares[name] = typed.trim() ? reading(faults, ["allow", name], () => shareOf(typed)) : given(usual);
  }
  return Object.values(shares).includes(undefined) ? undefined : shares;
}

const byId = (a, b) => (a.id < b.id ? -1 : 1);

/** Mortar of every mix over all walls, each with the mix that the first wall of it lays. */
function mixesOf(walls) {
  const found = new Map();
  for (const wall of walls) {
    for (const [name, mix] of Object.entries(wall.chosen.takes.mixes)) {
      if (!found.has(name)) found.set(name, T.mixes[mix]);
    }
  }
  const sorted = [...walls].sort(byId);
  return [...found].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, mix]) => {
    const volumes = sorted.filter((wall) => name in wall.byMix).map((wall) => wall.byMix[name]);
    const volume = { value: sum(volumes), unit: T.lines["volume-net"].unit };
    return { name, mix, volume, batches: batchesOf(mix, volume.value) };
  });
}

/** Full batches, and the part batch at the end: the one that the core takes for so much that is left. */
function batchesOf(mix, volume) {
  if (!mix.batch) return undefined;
  if (mix.bagged) return bagsOf(mix, volume);
  const mortar = given(mix.batch.mortar);
  const wholes = line("batches", { volume, mortar });
  const left = line("left", { volume, batches: wholes.value, mortar }).value;
  const count = BigInt(Math.round(wholes.value));
  if (!positive(left)) return { wholes: count };
  const [, number] = mix.upto.find(([most]) => atMost(left, most)) ?? [left, -1];
  return number < 0 ? { wholes: count + 1n } : { wholes: count, last: mix.lasts[number] };
}

function bagsOf(mix, volume) {
  const bags = given(mix.batch.bags);
  const all = exactly(line("bags-of-label", { volume, makes: given(mix.makes) }).value);
  const wholes = floor(over(all, bags));
  const rest = less(all, times(new Ratio(wholes), bags));
  return { wholes, last: mix.lasts.find((one) => compare(given(one.bags), rest) === 0) };
}

// --- what is ordered --------------------------------------------------------------------------------

function orderOf(walls, mixes, shares) {
  const sorted = [...walls].sort(byId);
  const needs = [...weighed(mixes), ...bagged(mixes), ...sanded(mixes, shares), ...watered(mixes)];
  needs.push(...lathed(sorted, shares), ...papered(sorted, shares), ...fastened(sorted), ...bonded(sorted));
  return needs.map((need) => packaged(need));
}

function gathered(rows) {
  const found = new Map();
  for (const [item, value] of rows) found.set(item, [...(found.get(item) ?? []), value]);
  return [...found].map(([item, values]) => ({ item, needed: sum(values) }));
}

const weighed = (mixes) =>
  gathered(
    mixes.flatMap(({ mix, volume }) =>
      Object.entries(mix.per).map(([item, per]) => [item, line("material", { volume: volume.value, per: given(per) }).value]),
    ),
  );

const bagged = (mixes) =>
  gathered(
    mixes
      .filter(({ mix }) => mix.bagged)
      .map(({ mix, volume }) => [mix.bagged.id, line("bags-by-label", { volume: volume.value, yields: given(mix.makes) }).value]),
  ).map((need) => ({ ...need, exact: need.needed }));

function sanded(mixes, shares) {
  const sandy = mixes.filter(({ mix }) => mix.sand !== null);
  if (!sandy.length) return [];
  const damp = sum(sandy.map(({ mix, volume }) => line("sand", { volume: volume.value, per: given(mix.sand) }).value));
  const dry = sum(
    sandy.map(({ mix, volume }) => line("sand-dry-mass", { volume: volume.value, per: given(mix.sandDry) }).value),
  );
  const moisture = line("sand-moisture", { dry, moisture: shares.moisture });
  const tons = line("sand-mass", { dry, moisture: moisture.value });
  const room = line("sand-bulking", { damp, bulking: shares.bulking });
  return [{ item: "sand", needed: damp, tons, room, moisture }];
}

function watered(mixes) {
  const of = ({ mix, volume: { value: volume } }) => {
    if (!mix.bagged) return line("water", { volume, per: given(mix.water) }).value;
    if (mix.waterEach === null) return undefined;
    return line("water-by-label", { volume, yields: given(mix.makes), water: given(mix.waterEach) }).value;
  };
  const site = mixes.filter(({ mix }) => !mix.bagged);
  const labelled = mixes.filter(({ mix }) => mix.bagged);
  const amounts = [...site, ...labelled].map(of).filter((amount) => amount !== undefined);
  return amounts.length ? [{ item: "water", needed: sum(amounts) }] : [];
}

const taking = (walls, item) => walls.filter((wall) => wall.chosen.takes.items.includes(item));

function lathed(walls, shares) {
  const hung = taking(walls, "lath");
  if (!hung.length) return [];
  const area = sum(hung.map((wall) => wall.net.value));
  const cutting = line("cutting", { area, cut: shares.lath });
  return [{ item: "lath", needed: line("lath", { area, cutting: cutting.value }).value, cutting }];
}

function papered(walls, shares) {
  const hung = taking(walls, "paper");
  if (!hung.length) return [];
  const area = sum(
    hung.map((wall) => line("paper-layers", { area: wall.net.value, layers: given(wall.chosen.paper) }).value),
  );
  const cutting = line("cutting", { area, cut: shares.lath });
  const laps = line("paper-laps", { area, cutting: cutting.value });
  return [{ item: "paper", needed: line("paper", { area, cutting: cutting.value, laps: laps.value }).value, cutting, laps }];
}

function fastened(walls) {
  const rows = { "lath fasteners": "fasteners-studs", "masonry lath fasteners": "fasteners-masonry" };
  return Object.entries(rows).flatMap(([item, name]) => {
    const hung = taking(walls, item);
    return hung.length ? [{ item, needed: sum(hung.map((wall) => line(name, { area: wall.net.value }).value)) }] : [];
  });
}

function bonded(walls) {
  const brushed = taking(walls, "bonding agent");
  if (!brushed.length) return [];
  return [{ item: "bonding agent", needed: line("bonding", { area: sum(brushed.map((wall) => wall.area.value)) }).value }];
}

/** Packages before rounding, rounded, as the yard hands them out, and what they cost. */
function packaged(need) {
  const item = T.items[need.item];
  const made = { ...need, needed: { value: need.needed, unit: item.needed } };
  let exact = need.exact;
  if (exact === undefined && item.holds !== undefined) {
    const amount = item.weighed ? need.tons.value : need.needed;
    exact = line("packages", { needed: amount, package: given(item.holds) }).value;
  }
  if (exact === undefined || !item.round) return made;
  const round = { ...figuresOf(item.round.figures), exact };
  const packages = float(formula(item.round.formula)(round));
  const handed = item.opened ? line("whole-bags", { packages }).value : packages;
  const of = (value) => ({ value, unit: item.unit });
  const cost = item.price === undefined ? undefined : cents(T.lines.cost.formula, { packages, price: given(item.price) });
  return { ...made, exact: of(exact), packages: of(packages), handed: of(handed), cost };
}

// --- dates and cautions -----------------------------------------------------------------------------

const dayOf = (text) => (/^[0-9]{4}-[0-9]{2}-[0-9]{2}$/.test(text) ? new Date(`${text}T00:00:00Z`) : undefined);

function later(day, days) {
  const found = new Date(day);
  found.setUTCDate(found.getUTCDate() + days);
  return found;
}

function workday(day) {
  let found = day;
  while (!T.worked[found.getUTCDay()]) found = later(found, 1);
  return found;
}

/** The earliest working day of each coat, and until when it is kept damp; each coat is done in a day. */
function datesOf(coats, start) {
  const dates = [];
  let ready = start;
  for (const coat of coats) {
    const on = workday(ready);
    const [next, damp] = coat.times.days;
    ready = later(on, next);
    dates.push({ on, next: ready, damp: damp ? later(on, damp) : undefined });
  }
  return dates.map((one, n) => {
    const after = dates[n + 1];
    return after && one.damp && one.damp > after.on ? { ...one, damp: after.on } : one;
  });
}

/** What can hurt people on these walls: by what they are, what they meet, how high they are. Each thing once. */
function dangersOf(walls) {
  const reach = walls.map((wall) => add(wall.sizes.high, wall.sizes.gable)).reduce((a, b) => (compare(b, a) > 0 ? b : a), NONE);
  const notes = walls.flatMap((wall) => T.cautions.of[wall.chosen.dangers]);
  if (walls.some((wall) => wall.wall.old)) notes.push(...T.cautions.old);
  let band = [];
  for (const [height, at, past] of T.cautions.heights) {
    if (atMost(height, reach)) band = atMost(reach, height) ? at : past;
  }
  const platform = less(reach, T.cautions.ground);
  const said = [...new Set([...notes, ...band])].map((n) => T.cautions.notes[n]);
  return said.map(([code, grade, values]) => [code, grade, withPlatform(values, platform)]);
}

const withPlatform = (values, platform) =>
  Object.fromEntries(Object.entries(values).map(([name, value]) => [name, value === "platform" ? [platform, "ft"] : value]));

/** The whole answer. `job` holds what was typed, as text; faults say what of it cannot be read, and where. */
function answer(job) {
  const faults = [];
  const custom = customOf(job);
  const shares = sharesOf(job, faults);
  const walls = job.walls.map((wall, n) => wallAnswer(wall, n, shares, custom, faults));
  const good = walls.filter((wall) => wall);
  const mixes = shares ? mixesOf(good) : [];
  const order = shares ? orderOf(good, mixes, shares) : [];
  const costs = order.map((need) => need.cost).filter((cost) => cost);
  const start = dayOf(job.day);
  return {
    faults,
    custom,
    shares,
    walls,
    good,
    mixes,
    order,
    material: costs.length ? sum(costs) : undefined,
    dates: new Map(start ? good.map((wall) => [wall.id, datesOf(wall.coats, start)]) : []),
    dangers: good.length ? dangersOf(good) : [],
  };
}
