// Corners are moved over a photo; the card cut out there and the line for its post follow.
// Everything people wrote goes in as text, never as HTML.
"use strict";
const byId = (id) => document.getElementById(`fix-${id}`);
const whole = document.getElementById("fix"), say = whole.dataset;
const handles = [...document.querySelectorAll(".fix-corner")];
const stage = byId("stage"), picture = byId("photo");
const line = byId("line"), choice = byId("choice"), status = byId("status");
let data, card, photo, quad, pixels, waiting, drag, looking = -1;

const words = (pattern, values) => pattern.replace(/\{(\w+)\}/g, (_, name) => values[name]);
const within = ([x, y]) =>
  [Math.min(Math.max(x, 0), photo.size[0]), Math.min(Math.max(y, 0), photo.size[1])];
const written = () => quad.map((corner) => corner.map((value) => value.toFixed(1)));

function swapboardFix(given) {
  if (given.version !== 1 || !given.cards.length) return;
  data = given;
  data.cards.forEach((each, index) => {
    choice.add(new Option(nameOf(each), index));
  });
  for (const hidden of document.querySelectorAll("[data-script]")) hidden.hidden = false;
  addEventListener("hashchange", pick);
  pick();
}

function nameOf({ title, side, at, post, photo: index, doubtful }) {
  const file = data.photos[index].file.replace(/^photos\//, "");
  const name = post ? words(side === "back" ? say.back : "{title}", { title })
    : words(say.nobody, { at });
  return `${doubtful ? "? " : ""}${name} · ${file}`;
}

function pick() {
  const asked = /^#card-(\d+)$/.exec(location.hash);
  const index = asked && data.cards[asked[1]] ? Number(asked[1]) : card ? choice.value : 0;
  show(Number(index));
}

function show(index) {
  const before = photo;
  card = data.cards[index];
  photo = data.photos[card.photo];
  choice.value = index;
  byId("before").disabled = index === 0;
  byId("after").disabled = index === data.cards.length - 1;
  quad = card.moved || card.corners.map(within);
  if (photo !== before) open();
  byId("reasons").replaceChildren(...card.reasons.map((reason) => {
    const item = document.createElement("li");
    item.textContent = reason;
    return item;
  }));
  byId("sure").hidden = card.reasons.length > 0;
  for (const kind of ["front", "back", "nobody"]) {
    byId(kind).hidden = kind !== (card.side || "nobody");
  }
  byId("post").textContent = card.post;
  byId("spot").textContent = `Photo: ${photo.file.replace(/^photos\//, "")} at ${card.at}`;
  byId("paste").hidden = card.side === "back";
  looking = -1;
  status.textContent = "";
  draw();
}

function open() {
  const [wide, high] = photo.copySize;
  pixels = null;
  stage.style.setProperty("--shape", wide / high);
  byId("outline").setAttribute("viewBox", `0 0 ${photo.size.join(" ")}`);
  picture.width = wide;
  picture.height = high;
  picture.alt = words(say.photo, { file: photo.file });
  picture.src = `photos/${photo.copy}.jpg`;
  const script = document.createElement("script");
  script.src = `photos/${photo.copy}.js`;
  script.onload = () => script.remove();
  document.head.append(script);
}

async function swapboardPhoto(copy, text) {
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const image = await createImageBitmap(new Blob([bytes], { type: "image/jpeg" }));
  const { width, height } = image;
  const paper = new OffscreenCanvas(width, height).getContext("2d", { willReadFrequently: true });
  paper.drawImage(image, 0, 0);
  if (photo.copy !== copy) return;
  pixels = paper.getImageData(0, 0, width, height);
  draw();
}

function draw() {
  waiting = waiting || requestAnimationFrame(() => {
    waiting = 0;
    const fault = faultOf(written().map((corner) => corner.map(Number)));
    drawCorners();
    drawCard(fault);
    drawLoupe();
    if (byId("fault").textContent !== (fault && say[fault])) {
      byId("fault").textContent = fault && say[fault];
    }
    const text = written().map((corner) => corner.join(" ")).join(", ");
    line.value = fault ? "" : `Cut out at: ${text}`;
    byId("copy").disabled = Boolean(fault);
  });
}

function change(corners) {
  quad = card.moved = corners;
  status.textContent = "";
  draw();
}

const move = (i, to) => change(quad.map((corner, j) => (j === i ? within(to) : corner)));
