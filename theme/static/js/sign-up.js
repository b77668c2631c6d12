// Signs up for a swap call: the same page, come to by the address compose.html#call=NAME.
"use strict";
const signUp = (() => {
  const form = byId("sign-up"), choice = byId("sign-up-call"), number = byId("sign-up-cards");
  const heading = byId("compose-name"), before = heading.textContent;

  // What a call is told as; it cannot be chosen before the day it opens, nor after the last one.
  const isOpen = (call) => call[3] <= boardDay && !hasEnded(call);
  const hasEnded = (call) => call[4] && call[4] < boardDay;
  const told = (call) => {
    if (isOpen(call)) return call[1];
    if (hasEnded(call)) return words(say.ended, { call: call[1] });
    const day = new Intl.DateTimeFormat(document.documentElement.lang, {
      dateStyle: "long", timeZone: "UTC",
    }).format(new Date(call[3]));
    return words(say.opens, { call: call[1], day });
  };

  function show(name) {
    form.hidden = !name;
    heading.textContent = name ? say.signUp : before;
    heading.nextElementSibling.hidden = Boolean(name);
    if (!name) return;
    if (choice.options.length === 1) {
      for (const call of calls) {
        choice.add(new Option(told(call), call[0]));
        choice.options[choice.length - 1].disabled = !isOpen(call);
      }
    }
    choice.value = name;
    suggest();
  }

  // As many as the call asks for, as long as nothing else was typed.
  function suggest() {
    const call = calls.find(([name]) => name === choice.value);
    if (call && call[2] && (!number.value || number.value === number.dataset.was)) {
      number.value = number.dataset.was = call[2];
    }
  }

  choice.addEventListener("change", suggest);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const [person, who] = whoIs("sign-up"), found = [];
    const call = calls.find(([name]) => name === choice.value);
    if (!call || !isOpen(call)) found.push([choice, call ? told(call) : say.call]);
    const typed = number.value.trim();
    if (!/^[1-9][0-9]{0,2}$/.test(typed)) found.push([number, say.cards]);
    found.push(...who, ...noteFaults("sign-up"));
    handOver.tell(form, found);
    if (found.length) return handOver.stale();
    const text = offerText.signUp({
      ...person, board: say.board, call: call[0], cards: typed, note: byId("sign-up-note").value,
    });
    const from = makers.get(person.from) || person.from;
    return handOver.show({
      heading: say.yourSignUp, text, subject: words(say.signed, { from, call: call[1] }),
      stem: `sign-up-${call[0]}`, pictures: [],
    });
  });

  return { show };
})();
