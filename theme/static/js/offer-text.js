// The texts that `swapboard take` reads, and the one file that carries a text and its pictures.
// Values in, text out: nothing here touches a page.
"use strict";
const offerText = (() => {
  const LONGEST_LINE = 200, LONGEST_NOTE = 5000; // as the reader has them
  const COLUMNS = 76; // of a line of base64 (RFC 2045, 6.8)
  const LONGEST_MAIL = 1900; // some mail programs cut a longer link off
  // Neither base64 nor quoted-printable can hold "=_" (RFC 2045, 6.7): no part holds this.
  const BOUNDARY = "=_swapboard_parts";
  const INDENT = "    ";

  // One line, whatever was pasted: no control character, no kind of line break, no lone half
  // of a character, no mark that turns the direction of what follows.
  const oneLine = (text, most = LONGEST_LINE) => text.normalize("NFC")
    .replace(/[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\u202a-\u202e\u2066-\u2069]+/gu, " ")
    .replace(/\s+/g, " ").trim().slice(0, most).replace(/[\ud800-\udbff]$/, "").trim();

  // Each line indented, so that none can be taken for a key or for the last line.
  const indented = (text) => text.slice(0, LONGEST_NOTE).split(/\r\n|[\n\r\v\f\x85\u2028\u2029]/)
    .map((line) => line.replace(/\t/g, INDENT).replace(/[\p{Cc}\p{Cs}\u202a-\u202e\u2066-\u2069]/gu, "")
      .trimEnd()).join("\n").trim().split("\n").map((line) => line && INDENT + line);

  const listed = (key, items) => [`${key}:`, ...items.map((item) => INDENT + item)];
  const note = (text) => (text.trim() ? ["Note:", ...indented(text)] : ["Note:"]);
  const who = ({ from, country }) =>
    [`From: ${oneLine(from, 100)}`, ...(country ? [`Country: ${oneLine(country, 60)}`] : [])];

  // `gives` are names of cards, `pictures` a line for each card that is not on the board.
  const offer = ({ board, to, asks, gives, pictures, ...rest }) => [
    "Swap offer, form 1",
    `Board: ${oneLine(board)}`,
    ...who(rest),
    `To: ${to}`,
    ...listed("Asks", asks),
    ...listed("Gives", [
      ...gives, ...pictures.map((line, index) => `picture ${index + 1}: ${oneLine(line)}`),
    ]),
    ...note(rest.note),
    "End of offer",
    "",
  ].join("\n");

  const signUp = ({ board, call, cards, ...rest }) => [
    "Call sign-up, form 1",
    `Board: ${oneLine(board)}`,
    `Call: ${call}`,
    ...who(rest),
    `Cards: ${cards}`,
    ...note(rest.note),
    "End of sign-up",
    "",
  ].join("\n");

  const news = ({ board, offer: name, by, what, on }) => [
    "Swap news, form 1",
    `Board: ${oneLine(board)}`,
    `Offer: ${name}`,
    `By: ${by}`,
    `News: ${what}`,
    ...(on ? [`On: ${on}`] : []),
    "End of news",
    "",
  ].join("\n");

  const encoded = (text) => encodeURIComponent(text.replace(/\n/g, "\r\n"));

  // RFC 6068. "" where it would be too long to be followed whole.
  function mailLink(to, subject, body) {
    const address = encodeURIComponent(to).replace("%40", "@");
    const link = `mailto:${address}?subject=${encoded(oneLine(subject))}&body=${encoded(body)}`;
    return link.length > LONGEST_MAIL ? "" : link;
  }

  function base64(bytes) {
    let binary = "";
    for (let at = 0; at < bytes.length; at += 8192) {
      binary += String.fromCharCode(...bytes.subarray(at, at + 8192));
    }
    return btoa(binary);
  }

  const utf8 = (text) => new TextEncoder().encode(text);
  const inColumns = (text) =>
    (text.match(new RegExp(`.{1,${COLUMNS}}`, "g")) || []).join("\r\n");

  // RFC 2047: words of at most 75 characters, none ending within a character of UTF-8.
  function headerText(text) {
    if (/^[\x20-\x7e]{0,60}$/.test(text) && !text.includes("=?")) return text;
    const parts = [""];
    for (const letter of text) {
      const last = parts.length - 1;
      if (utf8(parts[last] + letter).length > 42) parts.push(letter);
      else parts[last] += letter;
    }
    return parts.map((part) => `=?utf-8?B?${base64(utf8(part))}?=`).join("\r\n ");
  }

  const part = (headers, bytes) =>
    [`--${BOUNDARY}`, ...headers, "Content-Transfer-Encoding: base64", "", inColumns(base64(bytes))];

  // A whole mail without addresses (RFC 5322, 2045, 2183). `pictures` are JPEGs as bytes.
  const mailFile = ({ subject, text, pictures, date }) => [
    `Subject: ${headerText(oneLine(subject))}`,
    `Date: ${date.toUTCString().replace("GMT", "+0000")}`,
    "MIME-Version: 1.0",
    `Content-Type: multipart/mixed; boundary="${BOUNDARY}"`,
    "",
    ...part(["Content-Type: text/plain; charset=utf-8"], utf8(text.replace(/\n/g, "\r\n"))),
    ...pictures.flatMap((bytes, index) => part([
      "Content-Type: image/jpeg",
      `Content-Disposition: attachment; filename="picture-${index + 1}.jpg"`,
    ], bytes)),
    `--${BOUNDARY}--`,
    "",
  ].join("\r\n");

  return { LONGEST_LINE, LONGEST_NOTE, oneLine, offer, signUp, news, mailLink, mailFile };
})();
