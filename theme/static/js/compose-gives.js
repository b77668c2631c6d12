// What is given for the cards that are asked for: own cards on the board, or a picture of each.
"use strict";
const gives = (() => {
  const own = byId("offer-given"), box = byId("offer-pictures"), counted = byId("offer-count");
  const rows = new Map();
  let made = 0;

  const cardsGiven = () =>
    [...own.querySelectorAll("input:checked")].map((choice) => choice.value);
  const number = () => cardsGiven().length + rows.size;

  function showOwn(maker) {
    const mine = [...cards.values()].filter((card) => card.maker === maker);
    own.replaceChildren(...mine.map((card) => {
      const item = cardItem(card), label = document.createElement("label");
      const choice = document.createElement("input"), title = document.createElement("span");
      Object.assign(choice, { type: "checkbox", value: card.name, name: "offer-give" });
      title.textContent = card.title;
      label.append(choice, ...item.childNodes, title);
      item.append(label);
      return item;
    }));
    const none = byId("offer-own");
    none.hidden = !makers.has(maker) || mine.length > 0;
    none.textContent = none.hidden ? "" : say.none;
    // Whoever has no card here needs a picture of each; a row left empty is in nobody's way.
    const needed = maker === "*" || !none.hidden ? Math.max(1, asked().length) : 0;
    for (const [item, row] of rows) if (!needed && isEmpty(row)) remove(item);
    while (maker && rows.size < needed) add();
    count();
  }

  function choose(names) {
    for (const choice of own.querySelectorAll("input")) {
      choice.checked = names.includes(choice.value);
    }
    count();
  }

  const isEmpty = ({ bytes, line, file }) => !bytes && !line.value && !file.files.length;

  function add() {
    const item = byId("offer-picture").content.firstElementChild.cloneNode(true);
    const [file, line] = item.querySelectorAll("input"), labels = item.querySelectorAll("label");
    const row = { file, line, canvas: item.querySelector("canvas"), bytes: null, reading: 0 };
    made += 1;
    for (const [index, field] of [file, line].entries()) {
      const fault = field.nextElementSibling;
      field.id = `picture-${made}-${index}`;
      fault.id = `${field.id}-fault`;
      labels[index].htmlFor = field.id;
      field.setAttribute("aria-describedby", fault.id);
    }
    file.addEventListener("change", () => read(row));
    item.querySelector("button").addEventListener("click", () => {
      const next = item.nextElementSibling || item.previousElementSibling;
      remove(item);
      count();
      (next ? next.querySelector("input") : byId("offer-add")).focus();
    });
    rows.set(item, row);
    box.append(item);
    renumber();
    return row;
  }

  function remove(item) {
    rows.delete(item);
    item.remove();
    handOver.stale();
    renumber();
  }

  // Pictures are numbered as they stand in the text, from 1.
  function renumber() {
    for (const [index, [item, { canvas }]] of [...rows].entries()) {
      const title = words(say.numbered, { number: index + 1 });
      item.firstElementChild.textContent = title;
      item.querySelector("button").textContent = words(say.remove, { title });
      canvas.setAttribute("aria-label", words(say.shown, { number: index + 1 }));
    }
  }

  async function read(row) {
    const { file, canvas } = row, turn = (row.reading += 1), told = file.nextElementSibling;
    row.bytes = null;
    row.isBusy = file.files.length > 0;
    row.isUnread = false;
    canvas.hidden = true;
    told.textContent = "";
    file.removeAttribute("aria-invalid");
    if (!row.isBusy) return;
    // One chosen after this may be done before it: each is drawn on paper of its own.
    const paper = document.createElement("canvas");
    const bytes = await pictureSmall.small(file.files[0], paper).catch(() => null);
    if (turn !== row.reading) return;
    row.isBusy = false;
    row.isUnread = !bytes;
    row.bytes = bytes;
    if (!bytes) {
      told.textContent = say.unread;
      file.setAttribute("aria-invalid", "true");
      return;
    }
    canvas.width = paper.width;
    canvas.height = paper.height;
    canvas.getContext("2d").drawImage(paper, 0, 0);
    canvas.hidden = false;
  }

  function count() {
    const values = { asked: asked().length, given: number() };
    const off = values.asked - values.given;
    const pattern = off > 0 ? say.fewer : off < 0 ? say.more : say.even;
    const told = values.asked || values.given
      ? words(pattern, { ...values, more: off, fewer: -off }) : "";
    if (counted.textContent !== told) counted.textContent = told;
    counted.classList.toggle("form__count--even", off === 0 && values.asked > 0);
    return off;
  }

  // Where there are several pictures, a fault says of which it is told.
  function faultsOf([item, { file, line, bytes, isBusy, isUnread }]) {
    const found = [], which = rows.size > 1 ? item.firstElementChild.textContent : "";
    const why = isBusy ? say.reading : isUnread ? say.unread : say.missing;
    if (!bytes) found.push([file, why, which]);
    if (!offerText.oneLine(line.value)) found.push([line, say.said, which]);
    else if (!isPlain(line.value)) found.push([line, say.plain, which]);
    return found;
  }

  function faults(wanted) {
    const found = count() !== 0 && wanted ? [[byId("offer-gives"), counted.textContent]] : [];
    return [...found, ...[...rows].flatMap(faultsOf)];
  }

  byId("offer-add").addEventListener("click", () => {
    const row = add();
    handOver.stale();
    count();
    row.file.focus();
  });
  own.addEventListener("change", count);

  return {
    showOwn, choose, count, faults,
    cards: cardsGiven,
    pictures: () => [...rows.values()].map(({ line, bytes }) => ({ line: line.value, bytes })),
  };
})();
