// Tables of the core, and exact numbers: a Ratio where the core has a Fraction, a Number where it has a float.
// No figure of the trade stands in these files: every one comes with the tables.

const T = unpacked(document.getElementById("tables").textContent);

class Ratio {
  constructor(top, bottom = 1n) {
    if (bottom < 0n) [top, bottom] = [-top, -bottom];
    const common = commonOf(top < 0n ? -top : top, bottom);
    this.top = top / common;
    this.bottom = bottom / common;
  }
}

function commonOf(a, b) {
  while (b) [a, b] = [b, a % b];
  return a || 1n;
}

const NONE = new Ratio(0n);
const ONE = new Ratio(1n);
const TWO = new Ratio(2n);
const TEN = BigInt(T.exact.ten);

const isExact = (x) => x instanceof Ratio;

/** A number of the tables: text is exact ("3/8", "5"), a number is a float. */
function given(x) {
  if (typeof x === "number" || isExact(x)) return x;
  const [top, bottom = "1"] = x.split("/");
  return new Ratio(BigInt(top), BigInt(bottom));
}

/** The float nearest to a Ratio, ties to even. */
function float(x) {
  if (!isExact(x)) return x;
  if (x.top < 0n) return -float(new Ratio(-x.top, x.bottom));
  const lacks = T.exact.bits + x.bottom.toString(2).length - x.top.toString(2).length;
  const shift = BigInt(Math.max(lacks, 0));
  const scaled = x.top << shift;
  const quotient = ((scaled / x.bottom) << 1n) | (scaled % x.bottom ? 1n : 0n);
  return Number(quotient) * 2 ** -Number(shift + 1n);
}

/** A float as the Ratio it exactly is. */
function exactly(x) {
  if (isExact(x)) return x;
  let halvings = 0n;
  while (!Number.isInteger(x)) {
    x *= 2;
    halvings += 1n;
  }
  return new Ratio(BigInt(x), 1n << halvings);
}

const both = (a, b) => isExact(a) && isExact(b);
const add = (a, b) => (both(a, b) ? new Ratio(a.top * b.bottom + b.top * a.bottom, a.bottom * b.bottom) : float(a) + float(b));
const less = (a, b) => (both(a, b) ? new Ratio(a.top * b.bottom - b.top * a.bottom, a.bottom * b.bottom) : float(a) - float(b));
const times = (a, b) => (both(a, b) ? new Ratio(a.top * b.top, a.bottom * b.bottom) : float(a) * float(b));
const over = (a, b) => (both(a, b) ? new Ratio(a.top * b.bottom, a.bottom * b.top) : float(a) / float(b));
const minus = (a) => (isExact(a) ? new Ratio(-a.top, a.bottom) : -a);
const sum = (terms) => (terms.length ? terms.reduce(add) : 0);

/** Below nought where a is less than b, nought where they are equal: compared exactly, whatever they are. */
function compare(a, b) {
  const [x, y] = [exactly(a), exactly(b)];
  const gap = x.top * y.bottom - y.top * x.bottom;
  return gap < 0n ? -1 : gap > 0n ? 1 : 0;
}

const positive = (x) => compare(x, NONE) > 0;

function floor(x) {
  const quotient = x.top / x.bottom;
  return quotient * x.bottom > x.top ? quotient - 1n : quotient;
}

const SLACK = float(given(T.exact.slack));

/** Whether x keeps within a limit: exactly for exact numbers, with the core's slack for floats. */
function atMost(x, limit) {
  if (both(x, limit)) return compare(x, limit) <= 0;
  return float(x) <= float(limit) + Math.abs(float(limit)) * SLACK;
}

/** The least whole number that is not less than x, as a Ratio. */
function whole(x) {
  if (isExact(x)) return new Ratio(-floor(minus(x)));
  return new Ratio(BigInt(Math.ceil(x - Math.max(Math.abs(x), 1) * SLACK)));
}

/** x up to the next whole number of grain. */
function upTo(x, grain) {
  return times(whole(over(x, grain)), grain);
}
