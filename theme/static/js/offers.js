// Filters the offers, or the proposed swaps, of the page by theme and medium; without it, the
// links lead to those of each theme and medium.
"use strict";
const byId = (id) => document.getElementById(id);
const panel = byId("filters"), found = byId("filter-found"), nothing = byId("filter-nothing");
const offers = [...document.querySelectorAll("[data-offer]")];
const selects = {};

function putForm() {
  const form = byId("filter-form").content.firstElementChild.cloneNode(true);
  for (const select of form.querySelectorAll("select")) {
    for (const link of panel.querySelectorAll(`[data-facet=${select.name}] a`)) {
      const key = decodeURIComponent(link.pathname.replace(/^.*\/|(\.swaps|\.offers)?\.html$/g, ""));
      select.add(new Option(link.firstChild.textContent.trim(), key));
    }
    selects[select.name] = select;
    select.closest("label").hidden = select.length < 2;
  }
  form.addEventListener("change", () => go((name) => selects[name].value));
  panel.lastElementChild.replaceChildren(form);
}

function go(valueOf) {
  const pairs = Object.keys(selects).map((name) => [name, valueOf(name)]).filter(([, v]) => v);
  location.hash = new URLSearchParams(pairs).toString() || "all";
}

function show() {
  const asks = new URLSearchParams(location.hash.slice(1));
  for (const [name, select] of Object.entries(selects)) {
    const key = asks.get(name);
    // What the address asks for that is no choice on the page is ignored.
    select.value = [...select.options].some((option) => option.value === key) ? key : "";
  }
  const wishes = Object.entries(selects).filter(([, select]) => select.value);
  for (const offer of offers) {
    offer.hidden = !wishes.every(([name, { value }]) =>
      offer.dataset[name].split(" ").includes(value));
  }
  for (const part of document.querySelectorAll("[data-offers]")) {
    part.hidden = !part.querySelector("[data-offer]:not([hidden])");
  }
  const number = offers.filter((offer) => !offer.hidden).length;
  nothing.hidden = number > 0;
  found.textContent = wishes.length ? found.dataset.words.replace("{number}", number) : "";
}

byId("filter-clear").addEventListener("click", () => {
  go(() => "");
  panel.firstElementChild.focus();
});
window.addEventListener("hashchange", () => /=|^(#all)?$/.test(location.hash) && show());
putForm();
if (location.hash.includes("=")) {
  panel.open = true;
  show();
}
