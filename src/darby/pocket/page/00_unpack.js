"use strict";
// The tables, unpacked: they stand in the page as deflate (RFC 1951) in base 64, which any phone can undo by itself.
// The numbers of that format come with the page too.

const PACKING = JSON.parse(document.getElementById("packing").textContent);

/** Codes by length and value, from the lengths of the codes of 0, 1, 2 ... */
function codesOf(lengths) {
  const codes = new Map();
  let code = 0;
  for (let size = 1; size <= PACKING.longest; size += 1) {
    lengths.forEach((length, symbol) => {
      if (length === size) {
        codes.set(2 ** size + code, symbol);
        code += 1;
      }
    });
    code *= 2;
  }
  return codes;
}

class Unpacking {
  constructor(bytes) {
    this.bytes = bytes;
    this.at = 0;
    this.bit = 0;
    this.out = [];
  }

  bits(count) {
    let value = 0;
    for (let n = 0; n < count; n += 1) {
      value += ((this.bytes[this.at] >> this.bit) & 1) * 2 ** n;
      this.bit += 1;
      if (this.bit === PACKING.byte) {
        this.bit = 0;
        this.at += 1;
      }
    }
    return value;
  }

  symbol(codes) {
    let code = 1;
    for (;;) {
      code = code * 2 + this.bits(1);
      const found = codes.get(code);
      if (found !== undefined) return found;
    }
  }

  run() {
    let last = 0;
    while (!last) {
      last = this.bits(1);
      const kind = this.bits(2);
      if (kind === 0) this.plain();
      else this.block(...(kind === 1 ? PACKING.fixed.map(codesOf) : this.tables()));
    }
    return new TextDecoder().decode(new Uint8Array(this.out));
  }

  plain() {
    if (this.bit) this.bits(PACKING.byte - this.bit);
    const size = this.bits(PACKING.byte * 2);
    this.bits(PACKING.byte * 2);
    for (let n = 0; n < size; n += 1) this.out.push(this.bits(PACKING.byte));
  }

  tables() {
    const [literals, distances, lengths] = PACKING.counts.map(([bits, least]) => this.bits(bits) + least);
    const sizes = PACKING.order.map(() => 0);
    PACKING.order.slice(0, lengths).forEach((symbol) => (sizes[symbol] = this.bits(PACKING.size)));
    const codes = codesOf(sizes);
    const found = [];
    while (found.length < literals + distances) {
      const symbol = this.symbol(codes);
      const again = PACKING.again[symbol];
      if (!again) found.push(symbol);
      else {
        const [bits, least, nought] = again;
        const value = nought ? 0 : found[found.length - 1];
        for (let n = this.bits(bits) + least; n > 0; n -= 1) found.push(value);
      }
    }
    return [codesOf(found.slice(0, literals)), codesOf(found.slice(literals))];
  }

  block(literals, distances) {
    for (;;) {
      const symbol = this.symbol(literals);
      if (symbol === PACKING.end) return;
      if (symbol < PACKING.end) this.out.push(symbol);
      else {
        const [bits, least] = PACKING.lengths[symbol - PACKING.end - 1];
        const length = this.bits(bits) + least;
        const [farBits, far] = PACKING.distances[this.symbol(distances)];
        const from = this.out.length - far - this.bits(farBits);
        for (let n = 0; n < length; n += 1) this.out.push(this.out[from + n]);
      }
    }
  }
}

function unpacked(text) {
  return JSON.parse(new Unpacking(Uint8Array.from(atob(text), (byte) => byte.charCodeAt(0))).run());
}
