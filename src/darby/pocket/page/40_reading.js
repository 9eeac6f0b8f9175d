// Measures as people write them at the wall, read exactly or refused: the patterns are the core's own.

const R = T.reading;
const pattern = (text) => new RegExp(`^(?:${text})$`, "i");
const NUMBER = new RegExp(`^${R.number}`);
const MIXED = pattern(R.mixed);
const FEET = pattern(R.feet);
const INCHES = pattern(R.inches);
const BOTH = pattern(R.both);
const DASHED = pattern(R.dashed);
const DASHED_PART = pattern(R.dashedPart);

class Refused extends Error {
  constructor(code, found, allowed) {
    super(code);
    Object.assign(this, { code: `measure.${code}`, found, allowed });
  }
}

function refuse(code, found, allowed) {
  throw new Refused(code, found, allowed);
}

/** One spelling for every mark, space, dash and fraction character. */
function tidy(text, allowed) {
  if (text.length > R.longest) refuse("too-long", text.slice(0, R.longest), allowed);
  let clean = Array.from(text, (c) => R.same[c] ?? c).join("");
  for (const [char, spelled] of Object.entries(R.fractions)) {
    clean = clean.replace(new RegExp(`([0-9])${char}`, "g"), `$1 ${spelled}`).split(char).join(spelled);
  }
  clean = clean.split("''").join('"').trim().split(/\s+/).join(" ");
  return clean || refuse("empty", text, allowed);
}

/** An unsigned number, exact: 10 1/2, 3/8, 6.5. In US units a point is always a decimal point. */
function exactNumber(text, found, suffix, point) {
  const fraction = MIXED.exec(text);
  if (fraction) {
    const [ones, top, bottom] = fraction.slice(1).map((part) => BigInt(part ?? 0));
    if (!bottom || (fraction[1] !== undefined && top >= bottom)) refuse("fraction", found, R.aFraction);
    return add(new Ratio(ones), new Ratio(top, bottom));
  }
  const marks = text.match(/[.,]/g) ?? [];
  if (!marks.length) return given(text);
  return decimal(text, found, suffix, marks, point);
}

function decimal(text, found, suffix, marks, point) {
  const last = marks[marks.length - 1];
  if (marks.length > 1 && new Set(marks).size === 1) {
    if (!grouped(text, last)) refuse("number", found, R.aNumber);
    return given(text.split(last).join(""));
  }
  const at = text.lastIndexOf(last);
  const [head, tail] = [text.slice(0, at), text.slice(at + 1)];
  if (marks.length > 1) {
    if (head.includes(last) || !grouped(head, marks[0])) refuse("number", found, R.aNumber);
    return decimalOf(head.split(marks[0]).join(""), tail);
  }
  if (/^[0-9]{3}$/.test(tail) && /^[1-9][0-9]{0,2}$/.test(head) && (last === "," || !point)) {
    const space = /^[a-z0-9]/i.test(suffix) ? ` ${suffix}` : suffix;
    const small = `${head}.${tail}`.replace(/0+$/, "").replace(/\.$/, "");
    refuse("ambiguous", found, `${head}${tail}${space}, ${small}${space}`);
  }
  return decimalOf(head || "0", tail);
}

const decimalOf = (head, tail) => over(given(head + tail), tens(tail.length));

function grouped(text, mark) {
  const [first, ...rest] = text.split(mark);
  return /^[0-9]{1,3}$/.test(first) && rest.every((part) => /^[0-9]{3}$/.test(part));
}

/** A length in exact metres: 7' 10 1/2", 7-10 1/2, 5/8 in, 6.5 ft, 12 mm. `units`: what a bare number is in. */
function length(text, units) {
  const clean = tidy(text, R.aLength);
  const signed = clean.startsWith("-");
  const body = signed ? clean.slice(1).trimStart() : clean;
  const value = lengthOf(body, clean, units);
  return signed ? minus(value) : value;
}

function lengthOf(body, clean, units) {
  const marked = body
    .replace(/([0-9])\s*(?:ft|feet|foot)\b\.?/gi, "$1'")
    .replace(/([0-9])\s*(?:in|inches|inch)\b\.?/gi, '$1"');
  let found = FEET.exec(marked);
  if (found) return times(exactNumber(found[1], clean, "'", true), FT);
  found = INCHES.exec(marked);
  if (found) return times(exactNumber(found[1], clean, '"', true), IN);
  found = BOTH.exec(marked) ?? DASHED.exec(marked);
  if (found) return feetWithInches(found[1], found[2], clean);
  found = DASHED_PART.exec(marked);
  if (found && !units) refuse("ambiguous", clean, `${found[1]} ${found[2]}", ${found[1]}' ${found[2]}"`);
  if (body.startsWith("-")) refuse("unreadable", clean, R.aLength);
  return withUnit(body, clean, units);
}

function feetWithInches(feet, inches, clean) {
  const wholes = exactNumber(feet, clean, "'", true);
  const rest = exactNumber(inches, clean, '"', true);
  if (wholes.bottom !== 1n || feet.includes("/")) refuse("feet-not-whole", clean, R.wholeFeet);
  if (compare(times(rest, IN), FT) >= 0) refuse("inches", clean, R.mostInches);
  return add(times(wholes, FT), times(rest, IN));
}

function withUnit(body, clean, units) {
  if (!body) refuse("empty", clean, R.aLength);
  const digits = NUMBER.exec(body);
  if (!digits) refuse("unreadable", clean, R.aLength);
  let word = body.slice(digits[0].length).trim();
  if (!word) {
    if (!units) {
      exactNumber(digits[0], clean, "", false);
      refuse("no-unit", clean, R.aLength);
    }
    word = units;
  }
  const name = lengthUnit(word);
  if (!name) refuse("unknown-unit", clean, R.aLength);
  const point = R.pointed.includes(name);
  return times(exactNumber(digits[0], clean, word, point), UNITS[name].scale);
}

const lengthUnit = (word) => R.lengths[word.toLowerCase().split(".").join(" ").trim().split(/\s+/).join(" ")];

/** Two or more lengths with an x between; the last one's unit stands for all that have none. */
function lengthsBy(text) {
  const pieces = tidy(text, R.twoLengths).split(/\s*(?:x|\bby\b)\s*/i);
  if (pieces.length < 2) refuse("unreadable", text, R.twoLengths);
  const last = pieces[pieces.length - 1]
    .replace(/([0-9])\s*(?:ft|feet|foot)\b\.?/gi, "$1 ft")
    .replace(/([0-9])\s*(?:in|inches|inch)\b\.?/gi, "$1 in");
  const digits = NUMBER.exec(last.replace(/^-\s*/, ""));
  let word = digits ? last.replace(/^-\s*/, "").slice(digits[0].length).trim() : "";
  word = { "'": "ft", '"': "in" }[word] ?? word;
  return pieces.map((piece) => length(piece, lengthUnit(word) ? word : undefined));
}

/** Length and height of a wall. */
function wallSize(text) {
  const sides = lengthsBy(text);
  if (sides.length !== 2) refuse("unreadable", text, R.aWall);
  if (!sides.every(positive)) refuse("not-positive", text, R.aWall);
  return sides;
}

/** Width and height of an opening: 3068 is 3'-0" x 6'-8"; 3' x 4'; 900 x 2100 mm. */
function openingSize(text) {
  const clean = tidy(text, R.anOpening);
  if (/^[0-9]{4}$/.test(clean)) {
    const [feetWide, inchesWide, feetHigh, inchesHigh] = Array.from(clean, given);
    const sides = [
      add(times(feetWide, FT), times(inchesWide, IN)),
      add(times(feetHigh, FT), times(inchesHigh, IN)),
    ];
    return sides.every(positive) ? sides : refuse("not-positive", clean, R.anOpening);
  }
  if (!/x|\bby\b/i.test(clean)) refuse("opening-size", clean, R.anOpening);
  const sides = lengthsBy(clean);
  if (sides.length !== 2) refuse("opening-size", clean, R.anOpening);
  return sides.every(positive) ? sides : refuse("not-positive", clean, R.anOpening);
}

/** A whole count of things, one or more. */
function countOf(text) {
  const clean = tidy(text, R.aCount);
  if (!/^[0-9]+$/.test(clean)) refuse("count", clean, R.aCount);
  const count = given(clean);
  return positive(count) ? count : refuse("not-positive", clean, R.aCount);
}

/** A share in percent, with or without the sign: 10, 7 1/2 %. */
function shareOf(text) {
  const clean = tidy(text, R.aShare).replace(/\s*%$/, "");
  const digits = NUMBER.exec(clean);
  if (!digits || digits[0] !== clean) refuse("unreadable", clean, R.aShare);
  const share = times(exactNumber(clean, clean, "%", true), UNITS["%"].scale);
  return compare(share, ONE) < 0 ? share : refuse("not-positive", clean, R.aShare);
}
