// Checks the published proof of a deal: what holds, what fails, and what cannot be checked.
// Needs deal-stream.js and deal.js; pure functions, and the same answers as the Python package.
"use strict";
const swapboardDealCheck = (() => {
  const { deal, isTooLarge, byCodePoint } = swapboardDeal;
  const { sha256, hmac, hex, unhex, utf8 } = swapboardStream;
  const HOLDS = "holds", FAILS = "fails", UNKNOWN = "cannot be checked";
  const step = (what, holds) => [what, holds ? HOLDS : FAILS];
  const digest = (bytes) => hex(sha256(bytes));
  const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

  const joined = (one, other) => {
    const whole = new Uint8Array(one.length + other.length);
    whole.set(one);
    whole.set(other, one.length);
    return whole;
  };

  // A name in a list: "%", control characters and line ends are % and two digits a byte.
  const quoted = (name) => name.replace(
    // eslint-disable-next-line no-control-regex
    /[%\u0000-\u001f\u007f\u0085\u2028\u2029]/g,
    (letter) => Array.from(utf8(letter), (b) => `%${b.toString(16).padStart(2, "0")}`).join(""),
  );
  const seedOf = (secret, text, value) => hmac(secret, joined(sha256(utf8(text)), utf8(value)));
  const pairHash = (key, pair) => hex(
    hmac(key, utf8([...pair].sort(byCodePoint).map(quoted).join("\n"))),
  );

  // How many cells each kind of line of a list has, its word not counted.
  const CELLS = new Map(Object.entries({
    call: 1, public: 1, relax: 1, maker: 2, met: 2, apart: 1,
  }));

  function readList(text) {
    const lines = text.split("\n"), read = { sent: [], met: [], apart: [], relax: [] };
    const makers = new Set();
    if (lines[0] !== "swapboard list 1" || lines[lines.length - 1]) throw new Error("no list");
    for (const line of lines.slice(1, -1)) {
      const [word, ...cells] = line.split("\t");
      if (cells.length !== CELLS.get(word)) throw new Error("no such line");
      if (word === "maker") {
        const maker = decodeURIComponent(cells[1]);
        if (makers.has(maker) || !/^[0-9]{1,9}$/.test(cells[0])) throw new Error("no maker's line");
        makers.add(maker);
        read.sent.push([maker, Number(cells[0])]);
      } else if (word === "met") read.met.push(cells.map(decodeURIComponent));
      else if (word === "apart") read.apart.push(cells[0]);
      else if (word === "relax") read.relax = cells[0].split(" ").filter(Boolean);
    }
    return read;
  }

  function sumsHold(sent, table, cards) {
    const count = (rows, key, much) => {
      const found = new Map();
      for (const row of rows) found.set(key(row), (found.get(key(row)) || 0) + much(row));
      return JSON.stringify([...found].filter(([, n]) => n).sort(([a], [b]) => (a < b ? -1 : 1)));
    };
    const due = count(sent, (row) => row[0], (row) => row[1]);
    const wanted = sent.flatMap(
      ([maker, many]) => Array.from({ length: many }, (_, at) => `${at + 1}\t${maker}`),
    );
    const pair = (row, at) => JSON.stringify([row[0], row[at]]);
    return table.every(([giver, taker, many]) => giver !== taker && many > 0)
      && count(table, (row) => row[0], (row) => row[2]) === due
      && count(table, (row) => row[1], (row) => row[2]) === due
      && same(cards.map(([giver, number]) => `${number}\t${giver}`).sort(), wanted.sort())
      && count(cards, (row) => pair(row, 2), () => 1)
        === count(table, (row) => pair(row, 1), (row) => row[2]);
  }

  function told(read, table) {
    const met = new Set(read.met.map((pair) => JSON.stringify(pair)));
    let repeats = 0, doubles = 0;
    for (const [giver, taker, many] of table) {
      if (met.has(JSON.stringify([giver, taker]))) repeats += many;
      doubles += many - 1;
    }
    const may = read.relax.includes("double") ? UNKNOWN : FAILS;
    return [
      [`Cards from makers met before: ${repeats}`, repeats ? UNKNOWN : HOLDS],
      [`Cards more than one from one maker: ${doubles}`, doubles ? may : HOLDS],
    ];
  }

  function stepsOf(proof) {
    if (proof.format !== "swapboard deal" || proof.version !== 1) {
      return [["The proof is of a version known here", FAILS]];
    }
    const steps = [step("The list is the one announced by its SHA-256",
      digest(utf8(proof.list)) === proof.list_sha256)];
    if (!proof.opened) return [...steps, ["The secret fits what was announced", UNKNOWN]];
    const secret = unhex(proof.secret), read = readList(proof.list), { table, cards } = proof;
    if (isTooLarge(read.sent)) {
      return [...steps, ["The list is of a size that can be dealt", FAILS]];
    }
    const shown = new Map(
      proof.apart.map(([one, other, key]) => [pairHash(unhex(key), [one, other]), [one, other]]),
    );
    steps.push(
      step("The secret fits what was announced", digest(secret) === proof.commitment),
      step("Each gets as many as they sent, and nobody their own",
        sumsHold(read.sent, table, cards)),
      step("Every pair shown as kept apart is on the list",
        [...shown.keys()].every((hash) => read.apart.includes(hash))),
    );
    if (read.apart.some((hash) => !shown.has(hash))) {
      return [...steps, ...told(read, table), [
        "The deal is the one that the seed gives (pairs kept apart are not all shown)", UNKNOWN,
      ]];
    }
    const made = deal(read.sent, {
      apart: [...shown.values()], met: read.met, relax: read.relax,
      seed: seedOf(secret, proof.list, proof.public_value),
    });
    return [...steps, step("The deal is the one that the seed gives",
      same(made.table, table) && same(made.cards, cards))];
  }

  // A list of [what was checked, "holds" | "fails" | "cannot be checked"].
  function check(proof) {
    try {
      return stepsOf(proof);
    } catch {
      return [["The proof can be read", FAILS]];
    }
  }

  return { check, quoted };
})();
