// Deals a group swap as the Python package does, so that anybody can check a deal in a browser.
// Needs deal-stream.js; pure functions. The way from a seed to a deal is told in
// plugins/swapboard/dealing/SPECIFICATION.md, and the names here are those used there.
"use strict";
const swapboardDeal = (() => {
  const { Stream } = swapboardStream;
  const LITTLE_WORK = 12000, MUCH_WORK = 1000000, TRIAL_CARDS = 2000000, TRIAL_TABLES = 20000;
  const FEW_GIVERS = 16, WORK_FOR_FEW = 2500000, MOST_CLASHES = 10n, TRADES_EACH = 100;
  const MOST_MAKERS = 1000, MOST_CARDS = 100000;
  const MOST_PAIRS = 5n, BOUND_WORK = 200000000, ONE = 16384n, E = 44536n;
  const METHODS = ["settled", "counting", "rejection", "counting and rejection", "bounds", "walk"];
  const RELAX = ["met", "double", "apart"];
  const range = (count) => Array.from({ length: count }, (_, i) => i);
  const sum = (numbers) => numbers.reduce((total, n) => total + n, 0);
  const grid = (rows, columns, value) => range(rows).map(() => new Array(columns).fill(value));

  // The rules, as prices.
  const byCodePoint = (one, other) => {
    const a = Array.from(one, (c) => c.codePointAt(0));
    const b = Array.from(other, (c) => c.codePointAt(0));
    const at = a.findIndex((code, i) => code !== b[i]);
    return at < 0 ? a.length - b.length : at < b.length ? a[at] - b[at] : 1;
  };

  const isTooLarge = (sent) => sent.length > MOST_MAKERS
    || sum(sent.map(([, count]) => count)) > MOST_CARDS;

  function rulesOf(sent, apart, met, relax) {
    const fits = sent.every(([, count]) => Number.isInteger(count) && count >= 0);
    if (!fits || isTooLarge(sent)) throw new RangeError("no numbers that can be dealt");
    const sorted = [...sent].sort((one, other) => byCodePoint(one[0], other[0]));
    const makers = sorted.map(([maker]) => maker), counts = sorted.map(([, count]) => count);
    const place = new Map(makers.map((maker, i) => [maker, i])), people = makers.length;
    const cells = (pairs) => pairs
      .map(([one, other]) => [place.get(one), place.get(other)])
      .filter(([i, j]) => i !== undefined && j !== undefined && i !== j);
    const isMet = grid(people, people, false), isApart = grid(people, people, false);
    for (const [i, j] of cells(met)) isMet[i][j] = true;
    for (const [i, j] of cells(apart)) isApart[i][j] = isApart[j][i] = true;
    const weights = {};
    let below = counts.reduce((most, count) => Math.max(most, count), 0);
    for (const rule of relax) {
      weights[rule] = 2 * people * below + 1;
      below += weights[rule];
    }
    if (4 * people * below > Number.MAX_SAFE_INTEGER) throw new RangeError("too many to deal");
    const base = grid(people, people, 0), cap = grid(people, people, 0);
    for (const i of range(people)) {
      for (const j of range(people)) {
        let most = Math.min(counts[i], counts[j]);
        if (!("double" in weights)) most = Math.min(most, 1);
        for (const [rule, there] of [["met", isMet], ["apart", isApart]]) {
          if (!there[i][j]) continue;
          if (rule in weights) base[i][j] += weights[rule];
          else most = 0;
        }
        cap[i][j] = i === j ? 0 : most;
      }
    }
    return { makers, counts, people, isMet, isApart, relax, base, cap, double: weights.double || 0 };
  }

  // The cheapest table, and all that are as cheap.
  const nextPrice = (rules, i, j, count) => rules.base[i][j] + (count ? rules.double + count : 0);

  function ranges(rules, givers, takers) {
    const low = [], high = [];
    for (const i of range(rules.people)) {
      low.push([]);
      high.push([]);
      for (const j of range(rules.people)) {
        const cap = rules.cap[i][j], base = rules.base[i][j], worth = takers[j] - givers[i];
        const second = base + rules.double, none = cap === 0 || base > worth;
        high[i].push(none ? 0 : Math.min(cap, 1 + Math.max(0, worth - second)));
        low[i].push(none || base === worth
          ? 0 : Math.min(cap, 1 + Math.max(0, worth - second - 1)));
      }
    }
    return [low, high];
  }

  function saturate(table, low, high, spare, lack) {
    for (const j of range(lack.length)) {
      if (!lack[j]) continue;
      for (const i of range(spare.length).sort((a, b) => spare[b] - spare[a])) {
        const count = Math.min(high[i][j] - table[i][j], spare[i], lack[j]);
        if (count <= 0) continue;
        table[i][j] += count;
        spare[i] -= count;
        lack[j] -= count;
      }
    }
    while (lack.some(Boolean)) {
      const chain = shortestChain(table, low, high, spare, lack);
      if (!chain.length) return;
      redeal(table, low, high, spare, lack, chain);
    }
  }

  function shortestChain(table, low, high, spare, lack) {
    const queue = range(spare.length).filter((i) => spare[i]);
    const fromTaker = new Map(queue.map((i) => [i, -1])), fromGiver = new Map();
    let newTakers = range(lack.length);
    for (const i of queue) {
      const reached = newTakers.filter((j) => table[i][j] < high[i][j]);
      for (const j of reached) {
        fromGiver.set(j, i);
        if (lack[j]) return back(j, fromGiver, fromTaker);
      }
      newTakers = newTakers.filter((j) => !fromGiver.has(j));
      for (const j of reached) {
        for (const k of range(spare.length)) {
          if (fromTaker.has(k) || table[k][j] <= low[k][j]) continue;
          fromTaker.set(k, j);
          queue.push(k);
        }
      }
    }
    return [];
  }

  function back(taker, fromGiver, fromTaker) {
    const chain = [];
    for (let at = taker; at >= 0; at = fromTaker.get(fromGiver.get(at))) {
      chain.push([fromGiver.get(at), at]);
    }
    return chain.reverse();
  }

  function redeal(table, low, high, spare, lack, chain) {
    const last = chain[chain.length - 1][1];
    const undone = chain.slice(1).map(([i], step) => [i, chain[step][1]]);
    const count = Math.min(
      spare[chain[0][0]], lack[last],
      ...chain.map(([i, j]) => high[i][j] - table[i][j]),
      ...undone.map(([i, j]) => table[i][j] - low[i][j]),
    );
    for (const [i, j] of chain) table[i][j] += count;
    for (const [i, j] of undone) table[i][j] -= count;
    spare[chain[0][0]] -= count;
    lack[last] -= count;
  }

  function cheapest(rules) {
    const table = grid(rules.people, rules.people, 0);
    const spare = [...rules.counts], lack = [...rules.counts];
    const givers = new Array(rules.people).fill(0), takers = [...givers];
    do {
      saturate(table, ...ranges(rules, givers, takers), spare, lack);
    } while (lack.some(Boolean) && raise(rules, table, spare, lack, givers, takers));
    return lack.some(Boolean) ? null : table;
  }

  // Dijkstra's search without a heap: the graph is dense.
  function raise(rules, table, spare, lack, givers, takers) {
    const people = rules.people, near = new Array(2 * people).fill(Infinity);
    const done = new Array(2 * people).fill(false);
    for (const i of range(people)) if (spare[i]) near[i] = 0;
    let far = Infinity;
    for (;;) {
      let node = -1;
      for (let n = 0; n < 2 * people; n += 1) {
        if (!done[n] && near[n] < (node < 0 ? Infinity : near[node])) node = n;
      }
      if (node < 0) return false;
      done[node] = true;
      far = near[node];
      if (node >= people && lack[node - people]) break;
      for (let other = 0; other < people; other += 1) {
        const [i, j] = node < people ? [node, other] : [other, node - people];
        const count = table[i][j], gap = givers[i] - takers[j];
        if (node < people && count < rules.cap[i][j]) {
          near[people + j] = Math.min(near[people + j], far + nextPrice(rules, i, j, count) + gap);
        } else if (node >= people && count) {
          near[i] = Math.min(near[i], far - nextPrice(rules, i, j, count - 1) - gap);
        }
      }
    }
    for (const i of range(people)) {
      givers[i] += done[i] ? near[i] : far;
      takers[i] += done[people + i] ? near[people + i] : far;
    }
    return true;
  }

  function potentials(rules, table) {
    const givers = new Array(rules.people).fill(0), takers = [...givers];
    for (let changed = true; changed;) {
      changed = false;
      for (const i of range(rules.people)) {
        for (const j of range(rules.people)) {
          const count = table[i][j];
          const there = count < rules.cap[i][j] ? givers[i] + nextPrice(rules, i, j, count) : 0;
          if (there < takers[j]) [takers[j], changed] = [there, true];
          const here = count ? takers[j] - nextPrice(rules, i, j, count - 1) : 0;
          if (here < givers[i]) [givers[i], changed] = [here, true];
        }
      }
    }
    return [givers, takers];
  }

  // What may change falls into parts that do not touch: strongly connected ones, found as the
  // people that can be reached from each other (S. R. Kosaraju, 1978).
  function parts(table, low, high) {
    const people = table.length, part = new Array(2 * people).fill(-1), ends = [];
    const leads = (from, to) => from < people
      ? to >= people && table[from][to - people] < high[from][to - people]
      : to < people && table[to][from - people] > low[to][from - people];
    const walk = (root, seen, follows, leave) => {
      const stack = [[root, 0]];
      seen[root] = true;
      while (stack.length) {
        const top = stack[stack.length - 1];
        while (top[1] < 2 * people && (seen[top[1]] || !follows(top[0], top[1]))) top[1] += 1;
        if (top[1] < 2 * people) {
          seen[top[1]] = true;
          stack.push([top[1], 0]);
        } else leave(stack.pop()[0]);
      }
    };
    const seen = new Array(2 * people).fill(false), again = [...seen];
    for (const node of range(2 * people)) {
      if (!seen[node]) walk(node, seen, leads, (n) => ends.push(n));
    }
    for (const root of ends.reverse()) {
      if (!again[root]) walk(root, again, (a, b) => leads(b, a), (n) => { part[n] = root; });
    }
    return part;
  }

  function faceOf(rules, table) {
    const [low, high] = ranges(rules, ...potentials(rules, table));
    const people = rules.people, part = parts(table, low, high), blocks = [];
    const settled = table.map((row, i) => row.map(
      (count, j) => part[i] === part[people + j] ? low[i][j] : count,
    ));
    for (const number of new Set(part.slice(0, people))) {
      const givers = range(people).filter((i) => part[i] === number);
      const takers = range(people).filter((j) => part[people + j] === number);
      if (takers.length) blocks.push(blockOf(table, low, high, givers, takers));
    }
    return { settled, blocks };
  }

  function blockOf(table, low, high, givers, takers) {
    const allowed = givers.map((i) => takers.map((j) => low[i][j] < high[i][j]));
    let rows = givers.map((i) => sum(takers.map((j) => table[i][j] - low[i][j])));
    let columns = takers.map((j) => sum(givers.map((i) => table[i][j] - low[i][j])));
    const room = allowed.map((row) => row.filter(Boolean).length);
    const inverted = 2 * sum(rows) > sum(room);
    if (inverted) {
      rows = rows.map((ones, i) => room[i] - ones);
      columns = columns.map((ones, k) => allowed.filter((row) => row[k]).length - ones);
    }
    return { givers, takers, rows, columns, allowed, inverted };
  }

  // Counting.
  function kindsOf(block, k, forbidden) {
    const numbers = new Map();
    return block.allowed.map((row) => {
      const tail = forbidden ? row.slice(k).map(Number).join("") : "";
      if (!numbers.has(tail)) numbers.set(tail, numbers.size);
      return numbers.get(tail);
    });
  }

  const comb = (n, k) => {
    let ways = 1n;
    for (let i = 1; i <= k; i += 1) ways = ways * BigInt(n - k + i) / BigInt(i);
    return ways;
  };
  const inOrder = (codes) => codes.sort((one, other) => one - other);
  const classesOf = (state) => {
    const found = new Map();
    for (const code of state) found.set(code, (found.get(code) || 0) + 1);
    return [...found];
  };

  function countTables(block, mostWork, forbidden) {
    const size = Math.max(...block.rows) + 1, kinds = [kindsOf(block, 0, forbidden)];
    const first = inOrder(block.rows.map((ones, i) => kinds[0][i] * size + ones)
      .filter((_, i) => block.rows[i]));
    let states = new Map([[first.join(), first]]), work = 0;
    const steps = [];
    for (const [k, needed] of block.columns.entries()) {
      kinds.push(kindsOf(block, k + 1, forbidden));
      const may = new Map(), onward = new Map(), after = new Map(), found = new Map();
      block.allowed.forEach((row, i) => {
        may.set(kinds[k][i], !forbidden || row[k]);
        onward.set(kinds[k][i], kinds[k + 1][i]);
      });
      for (const [key, state] of states) {
        const ways = [];
        const whole = waysOfOne(state, needed, may, onward, size, (way) => {
          work += block.givers.length;
          ways.push(way);
          after.set(way.key, way.state);
          return work <= mostWork;
        });
        if (!whole) return null;
        found.set(key, ways);
      }
      steps.push(found);
      states = after;
    }
    return { kinds, size, first: first.join(), steps, ways: countBack(steps) };
  }

  function waysOfOne(state, needed, may, onward, size, tell) {
    const classes = classesOf(state), chosen = new Array(classes.length).fill(0);
    const tops = classes.map(([code, many]) => may.get(Math.floor(code / size)) ? many : 0);
    const room = [...tops, 0];
    for (let place = tops.length - 1; place >= 0; place -= 1) room[place] += room[place + 1];
    const choose = (place, left) => {
      if (place === tops.length) return tell(wayOf(classes, chosen, onward, size));
      const most = Math.min(tops[place], left);
      for (let count = Math.max(0, left - room[place + 1]); count <= most; count += 1) {
        chosen[place] = count;
        if (!choose(place + 1, left - count)) return false;
      }
      return true;
    };
    return needed > room[0] || choose(0, needed);
  }

  function wayOf(classes, chosen, onward, size) {
    let weight = 1n;
    const state = [];
    classes.forEach(([code, many], place) => {
      const count = chosen[place], left = code % size;
      const moved = onward.get(Math.floor(code / size)) * size + left;
      weight *= comb(many, count);
      for (let i = count; i < many; i += 1) state.push(moved);
      if (left > 1) for (let i = 0; i < count; i += 1) state.push(moved - 1);
    });
    inOrder(state);
    return { choice: [...chosen], weight, state, key: state.join() };
  }

  function countBack(steps) {
    const counted = [new Map([["", 1n]])];
    for (const found of [...steps].reverse()) {
      const now = new Map();
      for (const [key, ways] of found) {
        now.set(key, ways.reduce(
          (total, way) => total + way.weight * (counted[0].get(way.key) || 0n), 0n,
        ));
      }
      counted.unshift(now);
    }
    return counted;
  }

  function drawCounted(block, counts, stream) {
    const left = [...block.rows], dealt = [];
    let key = counts.first;
    for (const k of range(block.takers.length)) {
      let number = stream.belowBig(counts.ways[k].get(key));
      const way = counts.steps[k].get(key).find((each) => {
        number -= each.weight * (counts.ways[k + 1].get(each.key) || 0n);
        return number < 0n;
      });
      const members = new Map();
      left.forEach((ones, i) => {
        const code = counts.kinds[k][i] * counts.size + ones;
        if (ones) members.set(code, [...(members.get(code) || []), i]);
      });
      const classes = inOrder([...members.keys()]);
      const givers = classes.flatMap((code, at) => stream.pick(members.get(code), way.choice[at]));
      if (!givers.every((i) => block.allowed[i][k])) return null;
      for (const i of givers) left[i] -= 1;
      dealt.push(givers);
      key = way.key;
    }
    return dealt;
  }

  // Rejection.
  function drawByRejection(block, stream) {
    const deck = block.rows.flatMap((ones, i) => new Array(ones).fill(i));
    for (let drawn = 0; drawn < TRIAL_CARDS;) {
      const dealt = [];
      let last = deck.length, fits = true;
      for (let k = 0; fits && k < block.columns.length; k += 1) {
        const givers = [];
        while (fits && givers.length < block.columns[k]) {
          const place = stream.below(last), giver = deck[place];
          last -= 1;
          drawn += 1;
          deck[place] = deck[last];
          deck[last] = giver;
          fits = !givers.includes(giver) && block.allowed[giver][k];
          givers.push(giver);
        }
        dealt.push(givers);
      }
      if (fits) return dealt;
    }
    return null;
  }

  // Bounds.
  function boundsUpTo(most) {
    const found = [ONE], up = (a, b) => (a + b - 1n) / b;
    for (let r = 0; r < most; r += 1) {
      const h = found[r];
      found.push(h + ONE + up(ONE ** 2n, 2n * h) + up(2n * ONE ** 3n, 12n * h * h - 3n * h * ONE));
    }
    return found;
  }

  function drawByBounds(block, stream) {
    const may = block.columns.map((_, k) => range(block.rows.length)
      .filter((i) => block.allowed[i][k]));
    const rooms = block.allowed.map((row) => sum(block.columns.filter((_, k) => row[k])));
    const h = boundsUpTo(rooms.reduce((most, room) => Math.max(most, room), 0));
    const power = (places, cards) => h[places] ** BigInt(cards);
    let work = 0;
    const one = (those, left, room, rest) => {
      let before = 1n, after = 1n;
      for (const i of those) {
        before *= power(room[i], left[i]);
        after *= power(room[i] - 1, left[i]);
      }
      let number = stream.belowBig(before);
      return those.find((i) => {
        const others = after / power(room[i] - 1, left[i]);
        number -= BigInt(left[i]) * E * others * power(room[i] - 1 - rest, left[i] - 1);
        return number < 0n;
      });
    };
    const trial = () => {
      const left = [...block.rows], room = [...rooms], dealt = [];
      let cards = sum(left);
      for (const [k, needed] of block.columns.entries()) {
        const givers = [];
        for (let rest = needed - 1; rest >= 0; rest -= 1) {
          const those = may[k].filter((i) => left[i] && !givers.includes(i));
          work += those.length * cards;
          const giver = one(those, left, room, rest);
          if (giver === undefined) return null;
          for (const i of those) room[i] -= 1;
          room[giver] -= rest;
          left[giver] -= 1;
          cards -= 1;
          givers.push(giver);
        }
        dealt.push(givers);
      }
      return dealt;
    };
    if (block.rows.length * sum(block.rows) ** 2 > BOUND_WORK) return null;
    while (work < BOUND_WORK) {
      const dealt = trial();
      if (dealt) return dealt;
    }
    return null;
  }

  // The walk.
  function drawByWalk(block, stream) {
    const givers = block.givers.length, allowed = block.allowed;
    const has = grid(givers, block.takers.length, 0), order = range(givers);
    saturate(has, grid(givers, block.takers.length, 0), allowed.map((row) => row.map(Number)),
      [...block.rows], [...block.columns]);
    const rows = has.map((row) => range(row.length).filter((k) => row[k]));
    const open = (one, other) => rows[one].filter((k) => allowed[other][k] && !has[other][k]);
    const change = (giver, before, after) => {
      for (const k of before) has[giver][k] = 0;
      for (const k of after) has[giver][k] = 1;
      rows[giver] = inOrder([...rows[giver].filter((k) => !before.includes(k)), ...after]);
    };
    const trade = () => {
      const one = stream.below(givers);
      let other = stream.below(givers - 1);
      if (other >= one) other += 1;
      const mine = open(one, other), theirs = open(other, one);
      if (!mine.length || !theirs.length) return;
      const pool = [...mine, ...theirs];
      stream.shuffle(pool);
      change(one, mine, pool.slice(0, mine.length));
      change(other, theirs, pool.slice(mine.length));
    };
    const ring = () => {
      let length = 3;
      if (givers < 3) return;
      while (length < givers && stream.below(2)) length += 1;
      const passing = stream.pick(order, length);
      const passed = passing.map((i) => rows[i][stream.below(rows[i].length)]);
      const next = (at) => passing[(at + 1) % length];
      if (passed.some((k, at) => has[next(at)][k] || !allowed[next(at)][k])) return;
      passing.forEach((i, at) => change(i, [passed[at]], [passed[(at + length - 1) % length]]));
    };
    for (let step = 0; step < TRADES_EACH * givers; step += 1) {
      trade();
      ring();
    }
    return block.takers.map((_, k) => order.filter((i) => has[i][k]));
  }

  // The method, by size alone.
  function pairsOf(block) {
    const twice = (numbers) => BigInt(sum(numbers.map((n) => n * (n - 1))));
    return twice(block.rows) * twice(block.columns);
  }

  function fewClashes(block, pairs) {
    const ones = BigInt(sum(block.rows));
    let forbidden = 0n;
    block.allowed.forEach((row, i) => row.forEach((may, k) => {
      if (!may) forbidden += BigInt(block.rows[i] * block.columns[k]);
    }));
    const double = pairs ? pairsOf(block) : 0n;
    return 2n * ones * forbidden + double <= 2n * MOST_CLASHES * ones * ones;
  }

  function draw(block, stream) {
    const few = countTables(block, LITTLE_WORK, true);
    if (few) return ["counting", drawCounted(block, few, stream)];
    const tried = fewClashes(block, true) && drawByRejection(block, stream);
    if (tried) return ["rejection", tried];
    const much = block.givers.length <= FEW_GIVERS ? WORK_FOR_FEW : MUCH_WORK;
    const many = countTables(block, much, true);
    if (many) return ["counting", drawCounted(block, many, stream)];
    const loose = fewClashes(block, false) && countTables(block, much, false);
    for (let trial = 0; loose && trial < TRIAL_TABLES; trial += 1) {
      const dealt = drawCounted(block, loose, stream);
      if (dealt) return ["counting and rejection", dealt];
    }
    const fewPairs = pairsOf(block) <= 2n * MOST_PAIRS * BigInt(sum(block.rows)) ** 2n;
    const bounded = fewPairs && drawByBounds(block, stream);
    if (bounded) return ["bounds", bounded];
    return ["walk", drawByWalk(block, stream)];
  }

  // `sent` is a list of [maker, cards to get back], `apart` and `met` lists of pairs, `seed`
  // bytes. Gives { possible, table: [[giver, taker, count]], cards: [[giver, number, taker]],
  // method }, both lists in order.
  function deal(sent, { apart = [], met = [], seed, relax = RELAX }) {
    const rules = rulesOf(sent, apart, met, relax), best = cheapest(rules);
    if (!best) return { possible: false, table: [], cards: [], method: "impossible" };
    const { settled: table, blocks } = faceOf(rules, best), stream = new Stream(seed);
    let weakest = 0;
    for (const block of blocks) {
      const [method, dealt] = draw(block, stream);
      weakest = Math.max(weakest, METHODS.indexOf(method));
      block.takers.forEach((j, k) => {
        const ones = new Set(dealt[k]);
        block.givers.forEach((i, row) => {
          if (block.allowed[row][k] && ones.has(row) !== block.inverted) table[i][j] += 1;
        });
      });
    }
    const { makers } = rules, cells = [], cards = [];
    table.forEach((row, i) => {
      const takers = row.flatMap((count, j) => new Array(count).fill(j));
      row.forEach((count, j) => { if (count) cells.push([makers[i], makers[j], count]); });
      stream.shuffle(takers);
      takers.forEach((j, at) => cards.push([makers[i], at + 1, makers[j]]));
    });
    return { possible: true, table: cells, cards, method: METHODS[weakest] };
  }

  return { version: 1, deal, isTooLarge, byCodePoint };
})();
