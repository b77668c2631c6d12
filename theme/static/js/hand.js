// The hand: cards picked so far, on any page. Kept by the browser where it is allowed to; where
// not, the addresses of links carry it on. Its buttons exist only here.
"use strict";
const swapboardHand = (() => {
  const MOST = 50; // as many as one offer may name
  const NAME = /^[\p{L}\p{N}][\p{L}\p{M}\p{N}_.-]{0,99}$/u;
  const script = document.currentScript, say = script.dataset;
  const root = new URL("../../", script.src);
  const place = `swapboard hand ${root.pathname}`;
  const buttons = new Map(), listeners = [];
  let names = [], isKept = true, strip;

  const words = (pattern, values) => pattern.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const clean = (list) => [...new Set(Array.isArray(list) ? list : [])]
    .filter((name) => typeof name === "string" && NAME.test(name)).slice(0, MOST);
  const joined = () => names.map(encodeURIComponent).join(",");

  // Names out of an address, which anybody may have written.
  function namesIn(text) {
    return clean(text.slice(0, 20000).split(",").map((name) => {
      try {
        return decodeURIComponent(name).normalize("NFC");
      } catch {
        return "";
      }
    }));
  }

  function read() {
    let kept = null;
    try {
      kept = localStorage.getItem(place);
    } catch {
      isKept = false;
    }
    if (!isKept) return;
    try {
      names = clean(JSON.parse(kept || "[]"));
    } catch {
      names = []; // what was kept there is no list: begin anew
    }
  }

  function keep() {
    try {
      localStorage.setItem(place, JSON.stringify(names));
    } catch {
      isKept = false;
    }
    // Coming back to this page, its own address knows the hand.
    if (!isKept && /^(#hand:.*)?$/.test(location.hash)) {
      history.replaceState(null, "", names.length ? `#hand:${joined()}` : location.pathname);
    }
  }

  function change(list) {
    names = clean(list);
    keep();
    show();
  }

  const take = (more) => change([...names, ...more]);
  const leave = (name) => change(names.filter((each) => each !== name));

  function show() {
    for (const [button, { name, title }] of buttons) {
      const isHeld = names.includes(name);
      button.firstChild.textContent = isHeld ? say.leave : say.take;
      button.lastChild.textContent = words(say.named, { title });
      button.classList.toggle("hand-button--held", isHeld);
    }
    if (strip) showStrip();
    for (const listener of listeners) listener();
  }

  function showStrip() {
    const count = strip.querySelector("[role=status]"), link = strip.querySelector("a");
    const said = names.length ? words(say.count, { number: names.length }) : "";
    if (count.textContent !== said) count.textContent = said;
    link.hidden = !names.length;
    link.hash = `#cards=${joined()}`;
    strip.classList.toggle("hand--empty", !names.length);
  }

  function button(name, title) {
    const made = document.createElement("button");
    made.type = "button";
    made.className = "hand-button";
    made.append(document.createElement("span"), document.createElement("span"));
    made.lastChild.className = "unseen";
    made.addEventListener("click", () => (names.includes(name) ? leave(name) : take([name])));
    buttons.set(made, { name, title });
    return made;
  }

  const nameOf = (link) => namesIn(link.pathname.replace(/^.*\/|\.html$/g, ""))[0];

  // Only what may be had has a button: a tile says its state where it is another one.
  function dress(tile) {
    const link = tile.querySelector(".card-tile__link");
    const state = tile.querySelector(".card-tile__state");
    if (!link || (state && state.textContent.trim())) return;
    tile.append(button(nameOf(link), tile.querySelector(".card-tile__title").textContent));
  }

  function putUp() {
    for (const tile of document.querySelectorAll("main .card-tile")) dress(tile);
    const here = document.querySelector(".card-page__compose");
    if (here) {
      const title = document.querySelector("h1").textContent;
      here.append(button(nameOf(location), title));
    }
    const laid = document.getElementById("filter-laid");
    if (laid) new MutationObserver(dressLaid).observe(laid, { childList: true });
    const made = document.getElementById("hand-strip");
    if (made) {
      strip = made.content.firstElementChild.cloneNode(true);
      document.body.append(strip);
    }
  }

  function dressLaid(changes) {
    for (const one of buttons.keys()) if (!one.isConnected) buttons.delete(one);
    for (const { addedNodes } of changes) {
      for (const item of addedNodes) if (item.isConnected) dress(item.firstElementChild);
    }
    show();
  }

  // Where nothing may be kept, the hand goes along with whoever follows a link of this site.
  function carry({ target }) {
    const link = target.closest("a[href]");
    if (isKept || !link || link.hash || !link.href.startsWith(root.href)) return;
    if (names.length) link.hash = `hand:${joined()}`;
  }

  read();
  if (!isKept && location.hash.startsWith("#hand:")) names = namesIn(location.hash.slice(6));
  putUp();
  show();
  document.addEventListener("click", carry, true);
  document.addEventListener("auxclick", carry, true);
  addEventListener("storage", ({ key }) => key === place && (read(), show()));
  addEventListener("pageshow", ({ persisted }) => persisted && (read(), show()));

  return {
    words, namesIn, change, leave, joined,
    names: () => [...names],
    onChange: (listener) => listeners.push(listener),
  };
})();
