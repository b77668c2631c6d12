// What is drawn while corners move: rings and outline, the card cut out, the loupe.
"use strict";
const FINE = 3, QUICK = 2, LONG_SIDE = 490;
const loupe = byId("loupe"), result = byId("result");
const percent = (share) => `${share * 100}%`;

function drawCorners() {
  const points = quad.map((corner) => corner.join(","));
  byId("sides").setAttribute("points", points.join(" "));
  // Only the middle of the top side is marked: a corner is placed by its sides, seen bare.
  const along = (share) => quad[0].map((value, k) => value + (quad[1][k] - value) * share);
  byId("top").setAttribute("points", [along(0.4), along(0.6)].join(" "));
  handles.forEach((handle, i) => {
    const [x, y] = written()[i];
    handle.style.left = percent(x / photo.size[0]);
    handle.style.top = percent(y / photo.size[1]);
    handle.setAttribute("aria-label", words(handle.dataset.words, { x, y }));
  });
}

function drawCard(fault) {
  const [across, down] = shapeOf(quad, card.panels), times = LONG_SIDE / Math.max(across, down);
  const wide = Math.round(across * times), high = Math.round(down * times);
  if (result.width !== wide || result.height !== high) [result.width, result.height] = [wide, high];
  const paper = result.getContext("2d");
  result.dataset.ready = Boolean(pixels) && !fault;
  if (!pixels || fault) return paper.clearRect(0, 0, wide, high);
  const scale = photo.size.map((length, i) => photo.copySize[i] / length);
  const there = quad.map(([x, y]) => [x * scale[0], y * scale[1]]);
  const cut = straighten(pixels, there, paper.createImageData(wide, high), drag ? QUICK : FINE);
  paper.putImageData(cut, 0, 0);
}

function drawLoupe() {
  loupe.hidden = looking < 0;
  if (looking < 0) return;
  const scale = photo.copySize[0] / photo.size[0], side = loupe.width;
  const near = Math.max(2, 8 * stage.clientWidth / photo.copySize[0]);
  const [x, y] = quad[looking];
  const paper = loupe.getContext("2d");
  loupe.dataset.side = x * 2 > photo.size[0] ? "left" : "right";
  paper.setTransform(1, 0, 0, 1, 0, 0);
  paper.clearRect(0, 0, side, side);
  paper.setTransform(near, 0, 0, near, side / 2 - x * scale * near, side / 2 - y * scale * near);
  paper.drawImage(picture, 0, 0);
  for (const [colour, wide] of [["#fff", 5], ["#000", 1.5]]) {
    paper.beginPath();
    for (const i of [3, 0, 1]) {
      const [px, py] = quad[(looking + i) % 4];
      paper.lineTo(px * scale, py * scale);
    }
    paper.strokeStyle = colour;
    paper.lineWidth = wide / near;
    paper.stroke();
  }
}
