// Filters the cards page; without it, the links to themes and media serve. The data comes as a
// script, so that file:// works too. Everything goes in as text, never as HTML.
"use strict";
const STEP = 48;
const FACETS = ["theme", "medium", "maker", "state"];
const byId = (id) => document.getElementById(id);
const panel = byId("filters");
const copy = (id) => byId(id).content.firstElementChild.cloneNode(true);
const found = byId("filter-found"), results = byId("filter-results");
const laid = byId("filter-laid"), more = byId("filter-more");
const boxes = {};
let data, asked, matches = [], shown = 0;

const words = (pattern, values) => pattern.replace(/\{(\w+)\}/g, (_, name) => values[name]);
const link = (path) => panel.dataset.root + path.split("/").map(encodeURIComponent).join("/");
const keyOf = ({ name, path }) => path.replace(/^.*\/|\.html$/g, "") || name;

function load() {
  if (asked) return;
  asked = document.createElement("script");
  asked.src = panel.dataset.index;
  asked.onerror = () => { asked = null; };
  document.head.append(asked);
}

function swapboardCards(given) {
  if (data || given.version !== 1) return;
  data = given;
  const { themes: theme, media: medium, makers: maker } = data;
  const keys = (list, numbers) => numbers.map((number) => keyOf(list[number]));
  for (const card of data.cards) {
    card.keys = {
      theme: keys(theme, card.themes),
      medium: keys(medium, card.media),
      maker: keys(maker, [card.maker]),
      state: [card.state.replace(/ /g, "-")],
    };
  }
  putForm({ theme, medium, maker, state: [] });
  show();
}

function putForm(lists) {
  const form = copy("filter-form");
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
  form.addEventListener("change", () => go(ticked()));
  panel.lastElementChild.replaceChildren(form);
}

const ticked = () => FACETS.map((facet) =>
  [facet, boxes[facet].filter((box) => box.checked).map((box) => box.value)]);

// An empty fragment would scroll to the top, so no filter at all is "all".
function go(chosen) {
  const pairs = chosen.flatMap(([facet, keys]) => keys.map((key) => [facet, key]));
  location.hash = new URLSearchParams(pairs).toString() || "all";
}

// Within a facet any choice will do; across facets all must hold.
const fits = (card, chosen, but) => chosen.every(([facet, keys]) =>
  facet === but || !keys.length || card.keys[facet].some((key) => keys.includes(key)));

function tally(chosen, facet) {
  const counts = new Map(boxes[facet].map((box) => [box.value, 0]));
  for (const card of data.cards.filter((each) => fits(each, chosen, facet))) {
    for (const key of card.keys[facet]) counts.set(key, counts.get(key) + 1);
  }
  for (const box of boxes[facet]) {
    box.parentNode.lastElementChild.textContent = counts.get(box.value);
  }
}

function show() {
  const asks = new URLSearchParams(location.hash.slice(1));
  for (const facet of FACETS) {
    // Only what has a box counts: anything else in the address is ignored.
    for (const box of boxes[facet]) box.checked = asks.getAll(facet).includes(box.value);
  }
  const chosen = ticked(), any = chosen.some(([, keys]) => keys.length);
  for (const facet of FACETS) tally(chosen, facet);
  matches = any ? data.cards.filter((card) => fits(card, chosen)) : [];
  byId("cards-listed").hidden = any;
  results.hidden = !any;
  results.firstElementChild.hidden = matches.length > 0;
  shown = 0;
  laid.replaceChildren();
  lay();
  found.textContent = any ? words(found.dataset.words, { number: matches.length }) : "";
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
  const id = "tile-" + (!jpeg ? "blank" : jpeg[1] > jpeg[2] ? "landscape" : "portrait");
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
results.addEventListener("click", ({ target }) => {
  if (target.dataset.does === "more") lay().querySelector("a").focus();
  if (target.dataset.does === "clear") {
    go([]);
    panel.firstElementChild.focus();
  }
});
if (location.hash.includes("=")) load();
