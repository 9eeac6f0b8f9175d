// Numbers as people read them, written and rounded just as the core's measure.writing does it, by its own tables.

const UNITS = Object.fromEntries(
  Object.entries(T.units).map(([name, row]) => {
    const [scale, offset, us, metric, money] = row;
    return [name, { name, scale: given(scale), offset: given(offset), us, metric, money }];
  }),
);
const unitOn = (name, system) => UNITS[system === "metric" ? UNITS[name].metric : UNITS[name].us];
const IN = UNITS.in.scale;
const FT = UNITS.ft.scale;
const HALF = new Ratio(1n, 2n);
const W = T.writing;
const SIXTEENTHS = new Ratio(BigInt(W.sixteenths));
const LOST = given(W.lost);

const tens = (places) => (places < 0 ? new Ratio(1n, TEN ** BigInt(-places)) : new Ratio(TEN ** BigInt(places)));
const absolute = (x) => (compare(x, NONE) < 0 ? minus(x) : x);

/** The whole number nearest to value x scale, halves away from nought. What a float lost counts as the half. */
function nearest(value, scale) {
  const x = times(absolute(exactly(value)), scale);
  const count = floor(add(add(x, HALF), isExact(value) ? NONE : times(x, LOST)));
  return compare(value, NONE) < 0 ? -count : count;
}

const rounded = (value, places) => over(new Ratio(nearest(value, tens(places))), tens(places));

/** A number with exactly so many decimals and a comma between thousands. */
function number(value, places) {
  const count = nearest(value, tens(places));
  const digits = (count < 0n ? -count : count).toString().padStart(places + 1, "0");
  const wholes = digits.slice(0, digits.length - places).replace(/\B(?=(?:[0-9]{3})+$)/g, ",");
  return (count < 0n ? "-" : "") + wholes + (places ? "." + digits.slice(digits.length - places) : "");
}

/** The same without the noughts that say nothing. */
function brief(value, places) {
  const text = number(value, places);
  return text.includes(".") ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
}

/** So many parts of which `to` make one: 10 1/2. */
function mixed(count, to) {
  const wholes = count / to;
  const rest = new Ratio(count % to, to);
  if (!rest.top) return `${wholes}`;
  const part = `${rest.top}/${rest.bottom}`;
  return wholes ? `${wholes} ${part}` : part;
}

/** A length in feet and inches, to sixteenths: 7' 10 1/2". On a drawing 7'-10 1/2", 24'-0". */
function feetAndInches(value, drawing) {
  const to = SIXTEENTHS.top;
  if (nearest(value, over(SIXTEENTHS, IN)) < 0n) return `-${feetAndInches(minus(value), drawing)}`;
  const count = nearest(value, over(SIXTEENTHS, IN));
  const foot = floor(over(FT, IN)) * to;
  const [feet, rest] = [count / foot, count % foot];
  const inches = mixed(rest, to);
  if (!feet) return `${inches}"`;
  if (drawing) return `${feet}'-${rest && rest < to ? "0 " : ""}${inches}"`;
  return rest ? `${feet}' ${inches}"` : `${feet}'`;
}

/** An exact length as a job file takes it: nothing is lost. */
function lengthWritten(value) {
  if (compare(new Ratio(nearest(value, over(SIXTEENTHS, IN))), times(value, over(SIXTEENTHS, IN))) === 0) {
    return feetAndInches(value);
  }
  const metric = over(value, UNITS.mm.scale);
  const [size, unit] = metric.bottom === 1n ? [metric, "mm"] : [over(value, IN), "in"];
  return size.bottom === 1n ? `${size.top} ${unit}` : `${size.top}/${size.bottom} ${unit}`;
}

/** A value with its unit, as people read it on a sheet of this system. */
function shown(valueSI, unitName, places) {
  const unit = unitOn(unitName, state.system);
  const exact = isExact(valueSI);
  let value = valueSI;
  if (compare(unit.scale, ONE) || compare(unit.offset, NONE)) {
    value = exact ? over(less(value, unit.offset), unit.scale) : (value - float(unit.offset)) / float(unit.scale);
  }
  if (unit.name === "ft-in") return feetAndInches(valueSI);
  if (unit.money) return money(value, unit, places);
  const text = amountOf(value, unit, places);
  let word = W.printed[unit.name] ?? unit.name;
  if (text === "1" && word in W.one) word = W.one[word];
  word = named(word, text === "1");
  return word.startsWith("/") ? text + word : `${text} ${word}`.trimEnd();
}

/** Two values with one unit, printed once. */
function between(low, high, unitName) {
  const first = shown(low, unitName).replace(/[^0-9]+$/, "");
  return `${first} ${named("to")} ${shown(high, unitName)}`;
}

function amountOf(value, unit, places) {
  if (places !== undefined) return number(value, places);
  if (unit.name === "in") {
    const count = nearest(value, SIXTEENTHS);
    const off = absolute(less(exactly(value), over(new Ratio(count), SIXTEENTHS)));
    if (count && compare(times(off, IN), given(W.hair)) <= 0) {
      return (count < 0n ? "-" : "") + mixed(count < 0n ? -count : count, SIXTEENTHS.top);
    }
  }
  if (unit.name === "ft") {
    const off = absolute(less(rounded(value, W.feet), exactly(value)));
    if (compare(off, given(T.exact.slack)) < 0) return brief(value, W.feet);
  }
  return brief(value, placesOf(value, unit));
}

/** Decimals that mean something; of a value below one some figures are kept, so that little does not print as nothing. */
function placesOf(value, unit) {
  const places = W.places[unit.name] ?? W.otherwise;
  const size = absolute(exactly(value));
  if (W.plain.includes(unit.name) || compare(size, ONE) >= 0 || compare(size, given(T.exact.slack)) <= 0) return places;
  let first = 1;
  while (compare(times(size, tens(first)), ONE) < 0) first += 1;
  return Math.max(places, first + W.figures - 1);
}

function money(value, unit, places) {
  const cents = W.cents;
  if (places === undefined) {
    const off = absolute(less(rounded(value, cents), exactly(value)));
    places = unit.name === "$" || compare(off, given(T.exact.slack)) < 0 ? cents : cents + cents;
  }
  const text = number(value, places);
  const [, per] = (W.printed[unit.name] ?? unit.name).split("/");
  const amount = text.startsWith("-") ? `-$${text.slice(1)}` : `$${text}`;
  return per ? `${amount}/${named(per)}` : amount;
}

/** Parts of a mix, or bags: 7 1/2, 3/4, 5. */
const parts = (x) => mixed(exactly(x).top, exactly(x).bottom);

/** Money from exact numbers, rounded half up to the cent, once. A float is as sure as its unit's figures. */
function cents(formulaText, values) {
  const sure = Object.fromEntries(Object.entries(values).map(([name, x]) => [name, isExact(x) ? x : sureOf(x)]));
  return rounded(formula(formulaText)(sure), W.cents);
}

function sureOf(x) {
  const [digits, power = "0"] = x.toPrecision(T.exact.sure).split("e");
  const [wholes, part = ""] = digits.split(".");
  return times(new Ratio(BigInt(wholes + part)), tens(Number(power) - part.length));
}
