// The answer as text, number by number, for whoever checks the sheet against the core.

function printedAnswer(found) {
  const row = (need) => ({
    needed: quantity(need.needed),
    exact: need.exact && quantity(need.exact),
    packages: need.packages && quantity(need.packages),
    handed: need.handed && quantity(need.handed),
    tons: need.tons && quantity(need.tons),
    room: need.room && quantity(need.room),
    cost: need.cost && shown(need.cost, "$"),
  });
  return {
    faults: found.faults,
    walls: found.good.map(printedWall),
    mixes: Object.fromEntries(found.mixes.map(printedMix)),
    order: Object.fromEntries(found.order.map((need) => [need.item, row(need)])),
    material: found.material && shown(found.material, "$"),
    dangers: found.dangers.map(noteText),
    dates: Object.fromEntries([...found.dates].map(([id, dates]) => [id, dates.map(({ on, next, damp }) => [on, next, damp].map((day) => day && isoDay(day)))])),
  };
}

function printedWall(wall) {
  const { id, chosen, coats } = wall;
  return {
    id,
    gross: quantity(wall.gross),
    off: quantity(wall.off),
    reveals: quantity(wall.reveals),
    area: quantity(wall.area),
    net: quantity(wall.net),
    way: chosen.id,
    depth: chosen.depth.map(inches),
    grounds: inches(chosen.grounds),
    bead: inches(chosen.bead),
    weight: shown(given(chosen.weight[0]), chosen.weight[1]),
    cautions: [...chosen.cautions, ...wall.old.notes, ...wall.taken].filter(([, grade]) => grade !== "fact").map(noteText),
    setBack: wall.old.back && quantity(wall.old.back),
    coats: coats.map((coat) => ({
      name: coat.name,
      mix: coat.mix,
      depth: coat.depth.map(inches),
      net: quantity(coat.net),
      allowances: Object.fromEntries(coat.allowances.map(({ name, volume, share }) => [name, [quantity(volume), quantity(share)]])),
      total: quantity(coat.total),
      times: ["moist", "wait", "within"].map((time) => coat.times[time] && written(coat.times[time])),
      days: coat.times.days,
    })),
  };
}

function printedMix({ name, mix, volume, batches }) {
  const one = (batch) =>
    batch && {
      bags: parts(given(batch.bags)),
      of: batch.of.map(([item, mass, bags]) => [item, shown(given(mass), "lb"), shown(given(bags), "bags")]),
      sand: batch.sand && written(batch.sand),
      water: batch.water.map((each) => each === null ? null : shown(given(each), "gal")),
      mortar: shown(given(batch.mortar), "cu ft"),
    };
  return [name, { volume: quantity(volume), full: one(mix.batch), wholes: batches && `${batches.wholes}`, last: batches && one(batches.last), useWithin: written(mix.useWithin) }];
}
