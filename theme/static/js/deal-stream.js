// SHA-256, HMAC and the stream of random numbers that a deal is made of: see sections 1 and 3 of
// plugins/swapboard/dealing/SPECIFICATION.md.
"use strict";
const swapboardStream = (() => {
  // SHA-256 (FIPS 180-4) and HMAC (RFC 2104), written out because the browser's own cannot be
  // asked where a page is a file.
  const ROUNDS = new Uint32Array(64), START = new Uint32Array(8);
  (() => {
    const isPrime = (n) => Array.from({ length: n }, (_, d) => d).slice(2).every((d) => n % d);
    const part = (x) => Math.floor((x - Math.floor(x)) * 2 ** 32);
    let found = 0;
    for (let n = 2; found < 64; n += 1) {
      if (!isPrime(n)) continue;
      if (found < 8) START[found] = part(Math.sqrt(n));
      ROUNDS[found] = part(Math.cbrt(n));
      found += 1;
    }
  })();

  function sha256(bytes) {
    const length = bytes.length, size = (length + 72) >> 6 << 6;
    const padded = new Uint8Array(size), view = new DataView(padded.buffer);
    padded.set(bytes);
    padded[length] = 128;
    view.setUint32(size - 8, Math.floor(length / 2 ** 29));
    view.setUint32(size - 4, length * 8 >>> 0);
    const state = Uint32Array.from(START), w = new Uint32Array(64);
    for (let at = 0; at < size; at += 64) {
      for (let i = 0; i < 16; i += 1) w[i] = view.getUint32(at + 4 * i);
      compress(state, w);
    }
    const out = new Uint8Array(32), words = new DataView(out.buffer);
    state.forEach((word, i) => words.setUint32(4 * i, word));
    return out;
  }

  function compress(state, w) {
    const turn = (x, n) => x >>> n | x << 32 - n;
    for (let i = 16; i < 64; i += 1) {
      const p = w[i - 15], q = w[i - 2];
      w[i] = w[i - 16] + (turn(p, 7) ^ turn(p, 18) ^ p >>> 3)
        + w[i - 7] + (turn(q, 17) ^ turn(q, 19) ^ q >>> 10);
    }
    let [a, b, c, d, e, f, g, h] = state;
    for (let i = 0; i < 64; i += 1) {
      const one = h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + (e & f ^ ~e & g)
        + ROUNDS[i] + w[i] | 0;
      const two = (turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + (a & b ^ a & c ^ b & c) | 0;
      [a, b, c, d, e, f, g, h] = [one + two | 0, a, b, c, d + one | 0, e, f, g];
    }
    [a, b, c, d, e, f, g, h].forEach((word, i) => { state[i] += word; });
  }

  const joined = (...parts) => Uint8Array.from(parts.flatMap((part) => Array.from(part)));
  const utf8 = (text) => new TextEncoder().encode(text);
  const hex = (bytes) => Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
  const unhex = (text) => Uint8Array.from(text.match(/../g) || [], (pair) => parseInt(pair, 16));

  function hmac(key, message) {
    const block = new Uint8Array(64);
    block.set(key.length > 64 ? sha256(key) : key);
    const inner = sha256(joined(block.map((b) => b ^ 0x36), message));
    return sha256(joined(block.map((b) => b ^ 0x5c), inner));
  }

  // The stream.
  class Stream {
    constructor(seed) {
      this.input = new Uint8Array(40);
      this.input.set(sha256(joined(utf8("swapboard deal 1\0"), seed)));
      this.block = 0;
      this.at = 32;
    }

    byte() {
      if (this.at === 32) {
        const view = new DataView(this.input.buffer);
        view.setUint32(32, Math.floor(this.block / 2 ** 32));
        view.setUint32(36, this.block >>> 0);
        this.bytes = sha256(this.input);
        this.block += 1;
        this.at = 0;
      }
      this.at += 1;
      return this.bytes[this.at - 1];
    }

    below(bound) {
      if (bound === 1) return 0;
      if (bound > 65536) return Number(this.belowBig(BigInt(bound)));
      const small = bound <= 256, full = small ? 256 : 65536, limit = full - full % bound;
      for (;;) {
        const number = small ? this.byte() : this.byte() * 256 + this.byte();
        if (number < limit) return number % bound;
      }
    }

    belowBig(bound) {
      if (bound === 1n) return 0n;
      const size = Math.ceil((bound - 1n).toString(16).length / 2);
      const full = 1n << BigInt(8 * size), limit = full - full % bound;
      for (;;) {
        let number = 0n;
        for (let i = 0; i < size; i += 1) number = number << 8n | BigInt(this.byte());
        if (number < limit) return number % bound;
      }
    }

    shuffle(items) {
      for (let last = items.length - 1; last > 0; last -= 1) {
        const other = this.below(last + 1);
        [items[last], items[other]] = [items[other], items[last]];
      }
    }

    pick(items, count) {
      for (let place = 0; place < count; place += 1) {
        const other = place + this.below(items.length - place);
        [items[place], items[other]] = [items[other], items[place]];
      }
      return items.slice(0, count);
    }
  }

  return { sha256, hmac, hex, unhex, utf8, Stream };
})();
