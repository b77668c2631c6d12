// Filters the cards of a page; without it, the links to themes and media serve. The data comes as
// a script, so that file:// works too. Everything goes in as text, never as HTML.
"use strict";
const STEP = 48;
const FACETS = ["theme", "medium", "maker", "state", "shape"];
const LETTERS = { ø: "o", ł: "l", đ: "d", ı: "i", ß: "ss", æ: "ae", œ: "oe" };
const byId = (id) => document.getElementById(id);
const panel = byId("filters");
const copy = (id) => byId(id).content.firstElementChild.cloneNode(true);
const found = byId("filter-found"), results = byId("filter-results");
const laid = byId("filter-laid"), more = byId("filter-more"), ways = byId("filter-ways");
const boxes = {};
let data, loading, form, home, matches = [], shown = 0;

const words = (pattern, values) => pattern.replace(/\{(\w+)\}/g, (_, name) => values[name]);
const link = (path) => panel.dataset.root + path.split("/").map(encodeURIComponent).join("/");
const keyOf = ({ name, path }) => path.replace(/^.*\/|\.html$/g, "") || name;
const lie = (jpeg) => (jpeg[1] > jpeg[2] ? "wide" : "upright");
// Accents and case apart: letters that do not come apart have a list of their own.
const fold = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase()
  .replace(/[øłđıßæœ]/g, (letter) => LETTERS[letter]);

function load() {
  if (loading) return;
  loading = document.createElement("script");
  loading.src = panel.dataset.index;
  loading.onerror = () => { loading = null; };
  document.head.append(loading);
}

function swapboardCards(given) {
  if (data || given.version !== 1) return;
  data = given;
  const { themes: theme, media: medium, makers: maker } = data;
  const keys = (list, numbers) => numbers.map((number) => keyOf(list[number]));
  for (const card of data.cards) {
    card.text = fold(`${card.title} ${maker[card.maker].name}`);
    card.keys = {
      theme: keys(theme, card.themes),
      medium: keys(medium, card.media),
      maker: keys(maker, [card.maker]),
      state: [card.state.replace(/ /g, "-")],
      shape: card.pictures ? [lie(card.pictures.jpeg)] : [],
    };
  }
  putForm({ theme, medium, maker, state: [], shape: [] });
  home = addressOf(asked(panel.dataset.base));
  show();
}

function putForm(lists) {
  form = copy("filter-form");
  for (const facet of FACETS) {
    const group = form.querySelector(`[data-facet=${facet}]`);
    for (const place of [...lists[facet]].sort((a, b) => a.name.localeCompare(b.name))) {
      const choice = copy("filter-choice");
      choice.firstElementChild.value = keyOf(place);
      choice.children[1].textContent = place.name;
      group.lastElementChild.append(choice);
    }
    boxes[facet] = [...group.querySelectorAll("input")];
  }
  form.addEventListener("input", ({ target }) => go(wished(), target === form.q && asked().q));
  form.addEventListener("submit", (event) => event.preventDefault());
  panel.lastElementChild.replaceChildren(form);
}

// What an address asks for: what has no box on the page is ignored.
function asked(address = location.hash.slice(1)) {
  const asks = new URLSearchParams(address.includes("=") ? address : panel.dataset.base);
  const sorts = [...form.sort.options].map((option) => option.value);
  const wish = { q: (asks.get("q") || "").slice(0, 200), sort: asks.get("sort") };
  if (!sorts.includes(wish.sort)) wish.sort = sorts[0];
  for (const facet of FACETS) {
    const keys = asks.getAll(facet);
    wish[facet] = boxes[facet].map((box) => box.value).filter((key) => keys.includes(key));
  }
  return wish;
}

function wished() {
  const wish = { q: form.q.value, sort: form.sort.value };
  for (const facet of FACETS) {
    wish[facet] = boxes[facet].filter((box) => box.checked).map((box) => box.value);
  }
  return wish;
}

function addressOf(wish) {
  const pairs = FACETS.flatMap((facet) => wish[facet].map((key) => [facet, key]));
  if (wish.q.trim()) pairs.push(["q", wish.q]);
  if (wish.sort !== form.sort.options[0].value) pairs.push(["sort", wish.sort]);
  return new URLSearchParams(pairs).toString();
}

// An empty fragment would scroll to the top. "all" is the page as it came; where that is one
// theme's, "theme=" stands for every card there is.
function go(wish, replacing) {
  const address = addressOf(wish);
  const to = "#" + (address === home ? "all" : address || "theme=");
  if (replacing) location.replace(to);
  else location.hash = to;
}

// Within a facet any choice will do; across facets all must hold, and all words of a search.
const fits = (card, wish, but) =>
  FACETS.every((facet) => facet === but || !wish[facet].length
    || card.keys[facet].some((key) => wish[facet].includes(key)))
  && (but === "q" || fold(wish.q).split(/\s+/).every((word) => card.text.includes(word)));
const finds = (wish, but) => data.cards.filter((card) => fits(card, wish, but));

function tally(wish, facet) {
  const counts = new Map(boxes[facet].map((box) => [box.value, 0]));
  for (const card of finds(wish, facet)) {
    for (const key of card.keys[facet]) counts.set(key, counts.get(key) + 1);
  }
  for (const box of boxes[facet]) {
    const count = counts.get(box.value), choice = box.parentNode;
    choice.lastElementChild.textContent = count;
    choice.classList.toggle("filters__choice--none", !count);
  }
}

const sorted = (cards, by) => {
  const name = { title: (card) => card.title, maker: (card) => data.makers[card.maker].name }[by];
  if (name) return cards.sort((a, b) => name(a).localeCompare(name(b)));
  return by === "oldest" ? cards.reverse() : cards;
};

const labels = (wish, facet) => (facet === "q" ? [`“${wish.q.trim()}”`]
  : boxes[facet].filter((box) => wish[facet].includes(box.value))
    .map((box) => box.nextElementSibling.textContent)).join(", ");

function show() {
  const wish = asked(), any = addressOf(wish) !== home;
  for (const facet of FACETS) {
    for (const box of boxes[facet]) box.checked = wish[facet].includes(box.value);
    tally(wish, facet);
  }
  if (form.q.value !== wish.q) form.q.value = wish.q;
  form.sort.value = wish.sort;
  matches = any ? sorted(finds(wish), wish.sort) : [];
  byId("cards-listed").hidden = any;
  results.hidden = !any;
  results.firstElementChild.hidden = matches.length > 0;
  const chosen = [...FACETS, "q"].filter((facet) => wish[facet].length);
  ways.replaceChildren(...(any && !matches.length ? chosen.flatMap((facet) => way(wish, facet))
    : []));
  byId("filter-chosen").textContent = chosen.map((facet) => labels(wish, facet)).join(" · ");
  shown = 0;
  laid.replaceChildren();
  lay();
  found.textContent = any ? words(found.dataset.words, { number: matches.length }) : "";
}

// A way out of nothing found: leave one kind of choice be.
function way(wish, facet) {
  const number = finds(wish, facet).length;
  if (!number) return [];
  const item = copy("filter-way"), button = item.firstElementChild;
  button.textContent = words(ways.dataset.words, { names: labels(wish, facet), number });
  button.dataset.without = facet;
  return [item];
}

function lay() {
  const tiles = matches.slice(shown, shown + STEP).map(tile);
  shown += tiles.length;
  laid.append(...tiles);
  more.hidden = shown >= matches.length;
  return tiles[0];
}

function tile(card) {
  const jpeg = card.pictures?.jpeg, maker = data.makers[card.maker];
  const id = "tile-" + (jpeg ? lie(jpeg) : "blank");
  const made = copy(id), part = (name) => made.querySelector(".card-tile__" + name);
  const by = part("maker"), state = boxes.state.find((box) => box.value === card.keys.state[0]);
  part("link").href = link(card.path);
  part("title").textContent = card.title;
  if (maker.path) by.firstElementChild.href = link(maker.path);
  (maker.path ? by.firstElementChild : by).textContent = maker.name;
  part("edition").textContent = editionOf(card, byId(id).dataset);
  part("state").textContent = card.state === "available" ? "" : state.nextSibling.textContent;
  if (jpeg) putPicture(made, card, jpeg);
  return made;
}

function editionOf(card, patterns) {
  const [kind, number, total] = card.edition, said = [];
  const pattern = patterns[number && total ? kind : kind + "Alone"];
  if (pattern) said.push(words(pattern, { number, total }));
  if (card.copies_left > 1) said.push(words(patterns.copies, { number: card.copies_left }));
  return said.join(" · ");
}

function putPicture(made, card, [path, width, height]) {
  const image = made.querySelector("img");
  const sizes = card.pictures.avif.map(([file, wide]) => `${link(file)} ${wide}w`);
  made.querySelector("source").srcset = sizes.join(", ");
  image.className = "card-face card-face--" + card.edge;
  Object.assign(image, { width, height, alt: card.alt, src: link(path) });
}

panel.addEventListener("toggle", () => panel.open && load());
// Other fragments, like the skip link's, leave the filter be.
window.addEventListener("hashchange", () => {
  if (/=|^(#all)?$/.test(location.hash)) (data ? show : load)();
});
results.addEventListener("click", ({ target: { dataset } }) => {
  if (dataset.does === "more") lay().querySelector("a").focus();
  if (dataset.without) go({ ...asked(), [dataset.without]: dataset.without === "q" ? "" : [] });
  if (dataset.does === "clear") go(asked("all"));
  if (dataset.without || dataset.does === "clear") panel.firstElementChild.focus();
});
if (location.hash.includes("=")) load();
