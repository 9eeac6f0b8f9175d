// One wall: its size, its openings by the custom, its coats with every allowance on a line of its own.

/** Runs `read`; what it refuses is a fault of a field of a wall. */
function reading(faults, at, read) {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    faults.push({ at, code: error.code, found: error.found, allowed: error.allowed });
    return undefined;
  }
}

const within = (value, text) => (compare(value, given(R.longestLength)) > 0 ? refuse("too-long", text, R.aWall) : value);

function sizesOf(wall, at, faults) {
  const size = reading(faults, [...at, "size"], () => wallSize(wall.size).map((side) => within(side, wall.size)));
  const gable = wall.gable.trim()
    ? reading(faults, [...at, "gable"], () => {
        const peak = within(length(wall.gable), wall.gable);
        return positive(peak) ? peak : refuse("not-positive", wall.gable, R.aLength);
      })
    : NONE;
  const faces = reading(faults, [...at, "faces"], () => few(countOf(wall.faces), wall.faces));
  return size && gable && faces ? { long: size[0], high: size[1], gable, faces } : undefined;
}

const few = (count, text) => (compare(count, given(R.mostCount)) > 0 ? refuse("not-positive", text, R.aCount) : count);

/** Every single opening: kind, width, height, depth of its plastered reveals. */
function openingsOf(wall, at, faults) {
  const found = [];
  for (const [n, entry] of wall.openings.entries()) {
    const here = (field) => [...at, "openings", n, field];
    const size = reading(faults, here("size"), () => openingSize(entry.size).map((side) => within(side, entry.size)));
    const count = reading(faults, here("count"), () => few(countOf(entry.count), entry.count));
    const reveal = entry.reveal.trim()
      ? reading(faults, here("reveal"), () => {
          const deep = within(length(entry.reveal), entry.reveal);
          return compare(deep, NONE) < 0 ? refuse("not-positive", entry.reveal, R.aLength) : deep;
        })
      : NONE;
    if (!size || !count || !reveal) return undefined;
    for (let each = 0n; each < count.top; each += 1n) {
      found.push({ kind: entry.kind, wide: size[0], high: size[1], reveal, said: entry.reveal.trim() !== "" });
    }
  }
  return found;
}

/** Where openings stand: rows from the base up, the highest first, heads lined through, even gaps. Areas do not mind. */
function placed(openings, long, high) {
  const rows = [];
  for (const opening of [...openings].sort((a, b) => compare(b.high, a.high))) {
    const open = rows.find((one) => compare(add(one.wide, opening.wide), long) < 0);
    if (open) {
      open.wide = add(open.wide, opening.wide);
      open.openings.push(opening);
    } else rows.push({ wide: opening.wide, high: opening.high, openings: [opening] });
  }
  if (!rows.length) return [];
  const left = less(high, sum(rows.map((one) => one.high)));
  if (!positive(left) || rows.some((one) => compare(one.wide, long) >= 0)) return undefined;
  const onBase = rows[0].openings.some((opening) => opening.kind === "door");
  const gap = over(left, new Ratio(BigInt(onBase ? rows.length : rows.length + 1)));
  let up = onBase ? NONE : gap;
  const found = [];
  for (const one of rows) {
    const apart = over(less(long, one.wide), new Ratio(BigInt(one.openings.length + 1)));
    let at = apart;
    for (const opening of one.openings) {
      const sill = opening.kind === "door" ? up : add(up, less(one.high, opening.high));
      found.push({ ...opening, at, up: sill });
      at = add(at, add(opening.wide, apart));
    }
    up = add(up, add(one.high, gap));
  }
  return found;
}

/** Area by the custom: before openings, what comes off, reveals brought in; and the net area beside it. */
function areaOf(sizes, openings, custom) {
  const count = sizes.faces;
  const outline = add(times(sizes.long, sizes.high), over(times(sizes.long, sizes.gable), TWO));
  const gross = line("area-gross", { area: outline, count });
  const [off, brought, offNet, broughtNet] = [[], [], [], []];
  for (const opening of openings) {
    const hole = times(opening.wide, opening.high);
    const net = line("opening", { area: hole, faces: ONE, count }).value;
    const reveals = positive(opening.reveal) ? R.plastered.map((side) => revealOf(opening, side, count)) : [];
    offNet.push(net);
    broughtNet.push(...reveals);
    if (custom.none !== null && atMost(hole, given(custom.none))) continue;
    off.push(custom.share === null ? net : line("opening-share", { area: net, share: given(custom.share) }).value);
    const one = custom.oneFace !== null && atMost(hole, given(custom.oneFace));
    if (custom.share === null && !one) brought.push(...reveals);
  }
  const total = (openings, reveals) => line("area", { gross: gross.value, openings: sum(openings), reveals: sum(reveals) });
  return {
    gross,
    off: { value: sum(off), unit: gross.unit },
    reveals: { value: sum(brought), unit: gross.unit },
    area: total(off, brought),
    net: total(offNet, broughtNet),
  };
}

function revealOf(opening, side, count) {
  const along = side === "head" || side === "sill" ? opening.wide : opening.high;
  return line("reveal", { length: along, depth: opening.reveal, count }).value;
}

/** Mortar of one coat: net, each allowance on its own line, and their sum. */
function coatOf(coat, area, chosen, shares) {
  const [, nominal] = coat.depth.map(given);
  const net = line("volume-net", { area, thickness: nominal });
  const fills = chosen.takes.fills[coat.name];
  const added = fills ? [[fills, line(`volume-${fills}`, { area })]] : [];
  added.push(["spread", line("volume-spread", { net: net.value, spread: shares.spread })]);
  added.push(["waste", line("volume-waste", { net: net.value, waste: shares.waste })]);
  const allowances = added.map(([name, volume]) => ({
    name,
    volume,
    share: net.value ? line("share-of-net", { volume: volume.value, net: net.value }) : { value: 0, unit: "%" },
  }));
  const total = { value: sum([net.value, ...allowances.map((a) => a.volume.value)]), unit: net.unit };
  return { ...coat, net, allowances, total };
}

/** What old plaster at an end asks for: how far back the base must sit so that the new face comes flush. */
function oldWork(wall, at, chosen, faults) {
  if (!wall.old) return { notes: [] };
  const edge = `word:pocket.old.${wall.old}`;
  const total = given(chosen.bead);
  const cut = ["buildup.old-edge", "caution", { edge }];
  if (!wall.proud.trim()) return { notes: [cut, ["buildup.set-back-unmeasured", "caution", { edge, total: [total, "in"] }]] };
  const proud = reading(faults, [...at, "proud"], () => {
    const stands = within(length(wall.proud), wall.proud);
    return compare(stands, NONE) < 0 ? refuse("not-positive", wall.proud, R.aLength) : stands;
  });
  if (!proud) return { notes: [cut] };
  const back = line("set-back", { total, proud });
  const flush = atMost(total, proud) && atMost(proud, total);
  const code = flush ? "flush" : (back.value > 0 ? "back" : "forward") + (chosen.framed ? "-frame" : "");
  const values = { edge, by: [Math.abs(back.value), "in"], total: [total, "in"], proud: [proud, "in"] };
  return { back, notes: [cut, [`buildup.set-back-${code}`, flush ? "fact" : "caution", values]] };
}

/** Everything that is answered of one wall; undefined where something of it cannot be read. */
function wallAnswer(wall, n, shares, custom, faults) {
  const at = ["walls", n];
  const before = faults.length;
  const sizes = sizesOf(wall, at, faults);
  const openings = openingsOf(wall, at, faults);
  const { taken, offers, chosen } = chosenFor(wall);
  const old = oldWork(wall, at, chosen, faults);
  if (!sizes || !openings || !shares || faults.length > before) return undefined;
  const places = placed(openings, sizes.long, sizes.high);
  if (!places) {
    faults.push({ at: [...at, "openings"], code: "pocket.no-room", found: "", allowed: "" });
    return undefined;
  }
  const areas = areaOf(sizes, openings, custom);
  const coats = chosen.coats.map((coat) => coatOf(coat, areas.area.value, chosen, shares));
  const byMix = {};
  for (const name of [...new Set(coats.map((coat) => coat.mix))].sort()) {
    byMix[name] = sum(coats.filter((coat) => coat.mix === name).map((coat) => coat.total.value));
  }
  return { id: `wall-${n + 1}`, n, wall, sizes, openings, places, taken, offers, chosen, old, ...areas, coats, byMix };
}
