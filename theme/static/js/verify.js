// The button that checks a published deal on the reader's own computer.
// Needs deal-stream.js, deal.js, deal-check.js and the proof, a script beside the page.
"use strict";
(() => {
  const place = document.getElementById("check"), words = place.dataset;
  const proof = globalThis.swapboardProof;
  const SAYS = { holds: words.holds, fails: words.fails, "cannot be checked": words.unknown };
  const make = (tag, name, text) => {
    const made = document.createElement(tag);
    if (name) made.className = name;
    made.textContent = text;
    return made;
  };

  function repairs() {
    const { sha256, hex, utf8 } = swapboardStream;
    return (proof?.repairs ?? []).map(({ on, digest, record }) => [
      words.repair.replace("{day}", on),
      !record ? "cannot be checked" : hex(sha256(utf8(record))) === digest ? "holds" : "fails",
    ]);
  }

  function show() {
    const list = make("ol", "checks", "");
    for (const [what, result] of [...swapboardDealCheck.check(proof), ...repairs()]) {
      const row = make("li", `checks__step checks__step--${result.split(" ")[0]}`, "");
      row.append(make("span", "checks__what", what), make("strong", "", SAYS[result]));
      list.append(row);
    }
    place.replaceChildren(list);
    list.tabIndex = -1;
    list.focus();
  }

  const button = make("button", "button", words.button), status = make("p", "nothing", "");
  status.setAttribute("role", "status");
  button.type = "button";
  button.addEventListener("click", () => {
    button.disabled = true;
    status.textContent = words.working;
    // Twice, so that the words are on the screen before the work begins.
    requestAnimationFrame(() => requestAnimationFrame(show));
  });
  place.replaceChildren(button, status);
})();
