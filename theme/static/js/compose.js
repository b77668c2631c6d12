// Writes an offer: who, what they would like, what they give. What is asked for lies in the hand.
"use strict";
const form = byId("offer");
const cards = new Map(), makers = new Map();
let calls = [], to = "";

const asked = () => swapboardHand.names().map((name) => cards.get(name))
  .filter((card) => card && card.maker === to);

// The board's data, from a script, so that it comes from file:// too.
function swapboardComposer(given) {
  if (given.version !== 1) return;
  for (const [name, title] of given.makers) makers.set(name, title);
  const names = [...makers.keys()];
  for (const [name, title, maker, picture] of given.cards) {
    cards.set(name, { name, title, maker: names[maker], picture });
  }
  calls = given.calls;
  for (const id of ["offer", "sign-up"]) if (byId(`${id}-from`)) putMakers(id);
  byId("by-hand").hidden = true;
  byId("compose").hidden = false;
  swapboardHand.onChange(showHand);
  addEventListener("hashchange", follow);
  follow();
}

function putMakers(id) {
  const from = byId(`${id}-from`);
  for (const [name, title] of makers) from.add(new Option(title, name));
  from.addEventListener("change", () => {
    byId(`${id}-new`).hidden = from.value !== "*";
    if (id === "offer") gives.showOwn(from.value);
  });
}

// Anybody may have written the address: only cards and calls of this board count.
function follow() {
  const call = /^#call=([^&]*)/.exec(location.hash);
  const listed = /^#cards=([^&]*)(.*)/.exec(location.hash);
  const wanted = call ? swapboardHand.namesIn(call[1])[0] : "";
  const isSignUp = typeof signUp !== "undefined" && calls.some(([name]) => name === wanted);
  form.hidden = isSignUp;
  if (typeof signUp !== "undefined") signUp.show(isSignUp ? wanted : "");
  handOver.stale();
  const more = listed ? swapboardHand.namesIn(listed[1]) : [];
  const all = [...new Set([...more, ...swapboardHand.names()])];
  const known = all.filter((name) => cards.has(name));
  if (more.some((name) => cards.has(name))) to = cards.get(more.find((n) => cards.has(n))).maker;
  const gone = all.length - known.length;
  byId("offer-gone").textContent = gone ? words(say.gone, { number: gone }) : "";
  const proposed = listed && /^&from=([^&]*)&gives=([^&]*)$/.exec(listed[2]);
  swapboardHand.change(known);
  if (proposed) fillIn(...proposed.slice(1).map(swapboardHand.namesIn));
}

// A swap that the board proposes: the link says who would give what.
function fillIn([maker], names) {
  if (!makers.has(maker)) return;
  const from = byId("offer-from");
  from.value = maker;
  from.dispatchEvent(new Event("change", { bubbles: true }));
  gives.choose(names);
}

function showHand() {
  const held = swapboardHand.names().map((name) => cards.get(name)).filter(Boolean);
  const whose = [...new Set(held.map((card) => card.maker))];
  if (!whose.includes(to)) [to = ""] = whose;
  showWhose(whose, held);
  byId("offer-empty").hidden = held.length > 0;
  showAsked();
  if (!form.hidden) {
    history.replaceState(null, "", held.length ? `#cards=${swapboardHand.joined()}`
      : location.pathname);
  }
}

function showWhose(whose, held) {
  const box = byId("offer-whose");
  box.hidden = whose.length < 2;
  box.lastElementChild.replaceChildren(...whose.map((maker) => {
    const number = held.filter((card) => card.maker === maker).length;
    const label = document.createElement("label"), radio = document.createElement("input");
    Object.assign(radio, { type: "radio", name: "offer-to", value: maker, checked: maker === to });
    radio.addEventListener("change", () => {
      to = maker;
      showAsked();
    });
    label.className = "form__choice";
    label.append(radio, words(say.by, { maker: makers.get(maker), number }));
    return label;
  }));
}

function showAsked() {
  const box = byId("offer-asked");
  box.replaceChildren(...asked().map((card) => {
    const item = cardItem(card), out = document.createElement("button");
    const title = document.createElement("span");
    title.textContent = `${card.title} · ${makers.get(card.maker)}`;
    Object.assign(out, { type: "button", className: "button", textContent: "×" });
    out.setAttribute("aria-label", words(say.remove, { title: card.title }));
    out.addEventListener("click", () => {
      const at = [...box.children].indexOf(item);
      swapboardHand.leave(card.name);
      const next = box.children[Math.min(at, box.children.length - 1)];
      (next ? next.querySelector("button") : byId("offer-more")).focus();
    });
    item.append(title, out);
    return item;
  }));
  handOver.stale();
  gives.count();
}

const link = (path) => say.root + path.split("/").map(encodeURIComponent).join("/");

function cardItem({ picture }) {
  const item = byId("offer-card").content.firstElementChild.cloneNode(true);
  if (!picture) return item;
  const [avif, jpeg, width, height, alt] = picture;
  const whole = document.createElement("picture"), image = document.createElement("img");
  if (avif) {
    const source = document.createElement("source");
    Object.assign(source, { type: "image/avif", srcset: link(avif) });
    whole.append(source);
  }
  Object.assign(image, { loading: "lazy", width, height, alt, className: "card-face" });
  image.src = link(jpeg);
  whole.append(image);
  item.firstElementChild.append(whole);
  return item;
}

const bare = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase()
  .replace(/[^\p{L}\p{N}]+/gu, " ").trim();

// Who fills in a form, and what is wrong with that.
function whoIs(id) {
  const from = byId(`${id}-from`), name = byId(`${id}-name`), country = byId(`${id}-country`);
  if (from.value !== "*") return [{ from: from.value }, from.value ? [] : [[from, say.who]]];
  const typed = offerText.oneLine(name.value, 100), found = [];
  const isTaken = [...makers].flat().some((each) => bare(each) === bare(typed));
  if (!/^[\p{L}\p{N}]/u.test(typed) || /[\\/]/.test(typed) || !isPlain(typed)) {
    found.push([name, say.name]);
  } else if (isTaken) found.push([name, say.taken]);
  const place = offerText.oneLine(country.value, 60);
  if (!/\p{L}{2}/u.test(place) || !isPlain(place)) found.push([country, say.country]);
  return [{ from: typed, country: place, isNew: true }, found];
}

// A public page may show it: neither a mail address nor markup.
const isPlain = (text) =>
  !/[^\s@]@[^\s@]+\.[^\s@]|<\s*[a-z/!?]|(java|vb)script\s*:|data\s*:\s*text/i.test(text);

function noteFaults(id) {
  const field = byId(`${id}-note`);
  return isPlain(field.value) ? [] : [[field, say.plain]];
}

form.addEventListener("submit", (event) => {
  event.preventDefault();
  const [person, found] = whoIs("offer"), asks = asked().map((card) => card.name);
  const box = byId("offer-asks");
  if (!asks.length) found.push([box, say.nothing]);
  else if (person.from === to) found.push([box, say.own]);
  found.push(...gives.faults(asks.length), ...noteFaults("offer"));
  handOver.tell(form, found);
  if (found.length) return handOver.stale();
  const pictures = gives.pictures(), note = byId("offer-note").value;
  const text = offerText.offer({
    ...person, board: say.board, to, asks, gives: gives.cards(), note,
    pictures: pictures.map(({ line }) => line),
  });
  const names = { from: makers.get(person.from) || person.from, to: makers.get(to) };
  return handOver.show({
    heading: byId("compose-name").dataset.done, text, subject: words(say.subject, names),
    stem: `offer-${to}`, pictures: pictures.map(({ bytes }) => bytes),
  });
});
