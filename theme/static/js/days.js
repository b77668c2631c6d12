// Counts the days left anew, in the board's time zone; without it they stand as counted when
// the page was made. The way to sign up is shown from the day that it opens to the last one.
"use strict";
const boardDay = (() => {
  const zone = document.currentScript.dataset.zone;
  const today = new Intl.DateTimeFormat("en-CA", {
    timeZone: zone, year: "numeric", month: "2-digit", day: "2-digit",
  }).format(new Date());
  const days = (day) => Math.round((Date.parse(day) - Date.parse(today)) / 86400000);
  for (const way of document.querySelectorAll(".call-page__join")) {
    const { opens, closes } = way.dataset;
    way.hidden = Boolean(opens) && days(opens) > 0 || Boolean(closes) && days(closes) < 0;
  }
  for (const counted of document.querySelectorAll("[data-counted]")) {
    const until = counted.parentElement.querySelector("[data-until]");
    const left = days(until.dataset.until), then = until.textContent.match(/\d+/u);
    if (left < 0) {
      counted.parentElement.hidden = true;
    } else if (left < 2) {
      until.textContent = left ? until.dataset.one : until.dataset.none;
      counted.hidden = true;
    } else if (today === counted.dataset.counted) {
      counted.hidden = true;
    } else if (then && Number(then[0]) > 1) {
      until.textContent = until.textContent.replace(then[0], left);
      counted.hidden = true;
    }
  }
  return today;
})();
