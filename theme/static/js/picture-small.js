// A photo from the phone becomes a small JPEG, drawn anew: upright, and with nothing of what a
// camera notes about place, owner or device.
"use strict";
const pictureSmall = (() => {
  const LONGEST_SIDE = 1200; // pixels
  const SMALLEST_SIDE = 100;
  const LARGEST_FILE = 60e6; // bytes
  const ENOUGH = 320e3; // bytes: twenty of them still go through by mail
  const QUALITIES = [0.85, 0.75, 0.6, 0.45];

  const jpeg = (canvas, quality) =>
    new Promise((done) => canvas.toBlob(done, "image/jpeg", quality));

  // Draws `file` on `canvas` and gives its JPEG as bytes. Throws where it is no picture that
  // this browser can read, or too small to see a card on.
  async function small(file, canvas) {
    if (file.size > LARGEST_FILE) throw new RangeError("too large");
    const image = await createImageBitmap(file, { imageOrientation: "from-image" });
    const { width, height } = image;
    if (Math.min(width, height) < SMALLEST_SIDE) throw new RangeError("too small");
    const scale = Math.min(1, LONGEST_SIDE / Math.max(width, height));
    canvas.width = Math.max(1, Math.round(width * scale));
    canvas.height = Math.max(1, Math.round(height * scale));
    const paper = canvas.getContext("2d");
    paper.fillStyle = "#fff"; // what can be seen through would turn black
    paper.fillRect(0, 0, canvas.width, canvas.height);
    paper.imageSmoothingQuality = "high";
    paper.drawImage(image, 0, 0, canvas.width, canvas.height);
    image.close();
    let blob;
    for (const quality of QUALITIES) {
      blob = await jpeg(canvas, quality);
      if (blob && blob.size <= ENOUGH) break;
    }
    if (!blob) throw new RangeError("not drawn");
    return new Uint8Array(await blob.arrayBuffer());
  }

  return { small };
})();
