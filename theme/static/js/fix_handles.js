// What moves the corners: mouse, finger, pen and keys; and the buttons around them.
"use strict";
const SLOW = 0.1;
const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const look = (i) => { looking = i; draw(); };
const end = () => { drag = null; look(-1); };

handles.forEach((handle, i) => {
  handle.addEventListener("pointerdown", (event) => {
    if (event.button || drag) return;
    handle.focus({ preventScroll: true });
    handle.setPointerCapture(event.pointerId);
    drag = { id: event.pointerId, at: [event.clientX, event.clientY], to: quad[i] };
    look(i);
  });
  handle.addEventListener("pointermove", (event) => {
    if (!drag || drag.id !== event.pointerId) return;
    const now = [event.clientX, event.clientY];
    const each = photo.size[0] / stage.clientWidth * (event.shiftKey ? SLOW : 1);
    // Where the pointer has gone beyond the frame the corner waits for its return.
    drag.to = drag.to.map((value, k) => value + (now[k] - drag.at[k]) * each);
    drag.at = now;
    move(i, drag.to);
  });
  for (const over of ["pointerup", "pointercancel", "lostpointercapture"]) {
    handle.addEventListener(over, (event) => { if (drag && drag.id === event.pointerId) end(); });
  }
  handle.addEventListener("keydown", (event) => {
    const step = STEPS[event.key];
    if (!step || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    const far = event.shiftKey ? 10 : 1;
    looking = i;
    move(i, quad[i].map((value, k) => value + step[k] * far));
  });
  handle.addEventListener("focus", () => { if (handle.matches(":focus-visible")) look(i); });
  handle.addEventListener("blur", () => look(-1));
});

const go = (index) => { location.hash = `card-${index}`; };
choice.addEventListener("change", () => go(choice.value));
byId("before").addEventListener("click", () => go(Number(choice.value) - 1));
byId("after").addEventListener("click", () => go(Number(choice.value) + 1));
byId("turn").addEventListener("click", () => change([...quad.slice(1), quad[0]]));
byId("reset").addEventListener("click", () => {
  change(card.corners.map(within));
  delete card.moved;
});

byId("copy").addEventListener("click", async () => {
  line.select();
  try {
    await navigator.clipboard.writeText(line.value);
    status.textContent = say.copied;
  } catch {
    status.textContent = document.execCommand("copy") ? say.copied : say.byHand;
  }
});
picture.addEventListener("load", draw);
addEventListener("resize", () => { if (card) draw(); });
