// The geometry of putting corners right: numbers and pixels in, numbers and pixels out.
// A corner is [x, y]; four of them go clockwise from the card's own top left, y down.
"use strict";
const FLATTEST = 0.02, SMALLEST = 100;
const CARD_SHORT = 5, CARD_LONG = 7;

const crossOf = ([ox, oy], [ax, ay], [bx, by]) => (ax - ox) * (by - oy) - (ay - oy) * (bx - ox);
const areaOf = (quad) =>
  quad.reduce((sum, corner, i) => sum + crossOf([0, 0], corner, quad[(i + 1) % 4]), 0) / 2;
const meets = (a, b, c, d) =>
  crossOf(a, b, c) * crossOf(a, b, d) < 0 && crossOf(c, d, a) * crossOf(c, d, b) < 0;

// What a post would be refused for with these corners, as a code; "" where it is none.
// The limits are those by which the corners of a post are read.
function faultOf(quad) {
  const [a, b, c, d] = quad;
  const area = areaOf(quad);
  const turns = quad.map((corner, i) => crossOf(quad[(i + 3) % 4], corner, quad[(i + 1) % 4]) / 2);
  if (meets(a, b, c, d) || meets(b, c, d, a)) return "crossing";
  if (Math.abs(area) < SMALLEST) return "small";
  if (turns.every((turn) => turn < 0)) return "backwards";
  return Math.min(...turns) < FLATTEST * Math.abs(area) ? "dented" : "";
}

const sidesOf = (quad) =>
  quad.map(([x, y], i) => Math.hypot(quad[(i + 1) % 4][0] - x, quad[(i + 1) % 4][1] - y));

// Across and down in whole numbers: of all readings of a card of so many panels the one
// nearest to the sides' lengths, ties to the first.
function shapeOf(quad, panels) {
  const [top, right, bottom, left] = sidesOf(quad);
  const ratio = Math.max((top + bottom) / Math.max(right + left, 1e-9), 1e-9);
  const off = ([across, down]) => Math.abs(Math.log(ratio) - Math.log(across / down));
  const readings = [
    [CARD_SHORT * panels, CARD_LONG],
    [CARD_LONG, CARD_SHORT * panels],
    [CARD_LONG * panels, CARD_SHORT],
    [CARD_SHORT, CARD_LONG * panels],
  ];
  return readings.reduce((best, other) => (off(other) < off(best) ? other : best));
}

// From the unit square to four corners: Paul Heckbert, "Fundamentals of Texture Mapping and
// Image Warping", 1989, section 2.2.3 (from memory). x = (au + bv + c) / (gu + hv + 1).
function mapOf([[x0, y0], [x1, y1], [x2, y2], [x3, y3]]) {
  const sx = x0 - x1 + x2 - x3, sy = y0 - y1 + y2 - y3;
  const dx1 = x1 - x2, dx2 = x3 - x2, dy1 = y1 - y2, dy2 = y3 - y2;
  const whole = dx1 * dy2 - dx2 * dy1;
  const g = (sx * dy2 - dx2 * sy) / whole, h = (dx1 * sy - sx * dy1) / whole;
  return [
    x1 - x0 + g * x1, x3 - x0 + h * x3, x0,
    y1 - y0 + g * y1, y3 - y0 + h * y3, y0,
    g, h,
  ];
}

// Fills `card` (pixels as a canvas gives them) with the part of `photo` between the corners,
// each pixel the mean of up to `finest` × `finest` points; beyond the frame its border goes on.
function straighten(photo, quad, card, finest) {
  const { width, height, data: to } = card;
  const sides = sidesOf(quad);
  const scale = Math.max(sides[0] / width, sides[2] / width, sides[1] / height, sides[3] / height);
  const times = Math.min(Math.max(Math.ceil(scale - 0.05), 1), finest);
  const [a, b, c, d, e, f, g, h] = mapOf(quad);
  const from = photo.data, right = photo.width - 1, bottom = photo.height - 1;
  const row = photo.width * 4, points = times * times;
  let out = 0;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let red = 0, green = 0, blue = 0;
      for (let point = 0; point < points; point++) {
        const u = (x + (point % times + 0.5) / times) / width;
        const v = (y + (Math.floor(point / times) + 0.5) / times) / height;
        const depth = g * u + h * v + 1;
        // A pixel's value belongs to its middle, corners to its edges.
        const px = Math.min(Math.max((a * u + b * v + c) / depth - 0.5, 0), right);
        const py = Math.min(Math.max((d * u + e * v + f) / depth - 0.5, 0), bottom);
        const left = Math.floor(px), top = Math.floor(py);
        const fx = px - left, fy = py - top;
        const i = top * row + left * 4;
        const beside = left < right ? 4 : 0, below = top < bottom ? row : 0;
        const w0 = (1 - fx) * (1 - fy), w1 = fx * (1 - fy), w2 = (1 - fx) * fy, w3 = fx * fy;
        const j = i + beside, k = i + below, l = k + beside;
        red += from[i] * w0 + from[j] * w1 + from[k] * w2 + from[l] * w3;
        green += from[i + 1] * w0 + from[j + 1] * w1 + from[k + 1] * w2 + from[l + 1] * w3;
        blue += from[i + 2] * w0 + from[j + 2] * w1 + from[k + 2] * w2 + from[l + 2] * w3;
      }
      to[out++] = red / points;
      to[out++] = green / points;
      to[out++] = blue / points;
      to[out++] = 255;
    }
  }
  return card;
}
