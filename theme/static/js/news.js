// News of an offer: the text on its page follows what is chosen, to be copied or mailed.
"use strict";
const newsText = document.getElementById("news-text");
const newsPart = (id) => document.getElementById(id).content.firstElementChild.cloneNode(true);
const newsForm = newsPart("news-form"), newsWays = newsPart("news-ways");
const newsStatus = newsWays.lastElementChild, newsMail = newsWays.querySelector("a");

function tellNews() {
  const { board, offer, mail, subject } = newsForm.dataset;
  const { by, what, on } = newsForm;
  const text = offerText.news({
    board, offer, by: by.value, what: what.value, on: on.value,
  });
  newsText.textContent = text;
  newsMail.href = offerText.mailLink(mail, subject.replace("{offer}", () => offer), text)
    || `mailto:${mail}`;
  newsStatus.textContent = "";
}

newsForm.addEventListener("input", tellNews);
newsForm.addEventListener("submit", (event) => event.preventDefault());
newsWays.firstElementChild.addEventListener("click", async () => {
  try {
    await navigator.clipboard.writeText(newsText.textContent);
    newsStatus.textContent = newsForm.dataset.copied;
  } catch {
    getSelection().selectAllChildren(newsText);
    newsStatus.textContent = newsForm.dataset.byHand;
  }
});
newsText.before(newsForm);
newsText.after(newsWays);
tellNews();
