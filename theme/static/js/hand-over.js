// What both forms of the page share: faults told beside their fields and together, and the
// finished text to look at, copy, download and mail. Everything goes in as text, never as HTML.
"use strict";
const byId = (id) => document.getElementById(id);
const say = byId("compose").dataset;
const { words } = swapboardHand;

const handOver = (() => {
  const whole = byId("finished"), status = byId("finished-status");
  const shown = byId("finished-text"), mail = byId("finished-mail");
  const addresses = [];

  const faultOf = (field) => byId(field.getAttribute("aria-describedby").split(" ").pop());

  // `found` are [field, words, what it is a field of]. The first of a field is told beside it,
  // all of them on top.
  function tell(form, found) {
    for (const field of form.querySelectorAll("[aria-invalid]")) {
      field.removeAttribute("aria-invalid");
    }
    for (const fault of form.querySelectorAll(".form__fault")) fault.textContent = "";
    for (const [field, told] of found) {
      faultOf(field).textContent ||= told;
      if (field.matches("input, select, textarea")) field.setAttribute("aria-invalid", "true");
    }
    const box = form.querySelector(".form__faults");
    box.hidden = !found.length;
    box.lastElementChild.replaceChildren(...found.map((each) => wayTo(...each)));
    if (found.length) box.focus();
  }

  function wayTo(field, told, which) {
    const item = document.createElement("li"), link = document.createElement("a");
    link.href = `#${field.id}`;
    link.textContent = which ? `${which}: ${told}` : told;
    link.addEventListener("click", (event) => {
      event.preventDefault(); // the address keeps the hand
      field.focus();
    });
    item.append(link);
    return item;
  }

  function addressOf(bytes, type) {
    const address = URL.createObjectURL(new Blob([bytes], { type }));
    addresses.push(address);
    return address;
  }

  function download(link, bytes, type, name) {
    link.href = addressOf(bytes, type);
    link.download = name;
  }

  // `pictures` are JPEGs as bytes; `stem` is what the file is called.
  function show({ heading, text, subject, stem, pictures }) {
    const now = new Date(), file = `${stem}-${dayOf(now)}.eml`;
    for (const address of addresses.splice(0)) URL.revokeObjectURL(address);
    byId("finished-name").textContent = heading;
    shown.textContent = text;
    status.textContent = "";
    const letter = offerText.mailFile({ subject, text, pictures, date: now });
    download(byId("finished-file"), letter, "message/rfc822", file);
    const { mail: to, attached } = whole.dataset;
    const link = offerText.mailLink(to, subject, text);
    mail.href = link || offerText.mailLink(to, subject, words(attached, { file }));
    byId("finished-long").hidden = Boolean(link);
    showPictures(pictures);
    whole.hidden = false;
    byId("finished-name").focus();
  }

  function showPictures(pictures) {
    const box = byId("finished-pictures");
    box.hidden = !pictures.length;
    box.lastElementChild.replaceChildren(...pictures.map((bytes, index) => {
      const item = document.createElement("li"), link = document.createElement("a");
      link.textContent = `picture-${index + 1}.jpg`;
      download(link, bytes, "image/jpeg", link.textContent);
      item.append(link);
      return item;
    }));
  }

  // The day where the writer is, not in Greenwich.
  const dayOf = (now) => [now.getFullYear(), now.getMonth() + 1, now.getDate()]
    .map((number) => String(number).padStart(2, "0")).join("-");

  async function copy() {
    try {
      await navigator.clipboard.writeText(shown.textContent);
      status.textContent = whole.dataset.copied;
    } catch {
      getSelection().selectAllChildren(shown);
      shown.focus();
      status.textContent = whole.dataset.byHand;
    }
  }

  byId("finished-copy").addEventListener("click", copy);
  // What was finished is no longer what the form says.
  const stale = () => { whole.hidden = true; };
  for (const form of byId("compose").querySelectorAll("form")) form.addEventListener("input", stale);

  return { tell, show, stale };
})();
