"""An offer's form against the board: a new post, and what it needs that is not there yet."""

import re
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from swapboard.problems import Problem
from swapboard.records.header import write_post
from swapboard.records.names import Names, name_of
from swapboard.records.overtaken import claims_by_card, states
from swapboard.records.types import Board, OfferState, State
from swapboard.settings import Settings
from swapboard.taking.fit import LONGEST_LINE, Checked, find_maker
from swapboard.taking.types import (
    MAIL_COLUMNS,
    MAIL_TABLE,
    Attached,
    Change,
    Form,
    Letter,
    NewCard,
    Row,
)
from swapboard.vocabulary import slug, tidy
from swapboard.vocabulary.countries import countries_in
from swapboard.vocabulary.media import media_for

MOST_CARDS = 50
_LONGEST_STEM = 80  # bytes; a name may have 100 characters
_PICTURE = re.compile(r"picture\s*(\d{1,3})\s*(?::\s*(.*))?", re.IGNORECASE | re.DOTALL)
_NUMBERED = re.compile(r"picture-(\d{1,3})\.\w{1,5}", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Here:
    """The board that a letter meets: its records, where each card stands, the names in
    photos/, and the mail addresses known of each maker."""

    board: Board
    settings: Settings
    today: date
    stands: dict[str, tuple[State, int]]
    photos: Collection[str]
    mails: dict[str, set[str]]


def plan_offer(form: Form, letter: Letter, here: Here) -> tuple[Change | None, list[Problem]]:
    """What an offer's form changes on the board, or None and everything against it."""
    checked = Checked(form)
    checked.is_of_board(here.settings.board.name)
    to = _asked(checked, here.board)
    giver, new_maker = _giver(checked, here)
    asks = _cards(checked, here, "Asks", to)
    gives, new_cards = _gives(checked, here, letter, giver, bool(new_maker))
    note = checked.note()
    if giver and not new_maker:
        checked.compare_sender(letter, giver, here.mails)
    if giver and giver == to:
        fix = "an offer is between two makers."
        checked.bad("To", "must not be the maker in From", to, fix)
    if not checked.problems and len(gives) != len(asks):
        must = f"must name as many cards as Asks ({len(asks)}, not {len(gives)})"
        fix = "a swap is one for one, or n for n: add or take out cards on one side."
        checked.bad("Gives", must, None, fix)
    if checked.is_good:
        _check_new(checked, here, giver, to, gives, asks)
    if not checked.is_good:
        return None, checked.problems
    texts = dict(new_maker)
    path, text = _post(here, giver, to, gives, asks, new_cards, note)
    texts[path] = text
    rows = mail_row(letter, giver, here.mails)
    words = _words(here, path, giver, to, gives, asks, texts, new_cards, rows)
    return Change(texts, new_cards, rows, (), words), checked.problems


def free_name(wanted: str, taken: Collection[str]) -> str:
    """A name made from a text, with a number after it where a name of `taken` is the same
    web address."""
    stem = slug(wanted)
    if len(stem.encode()) > _LONGEST_STEM:
        stem = stem.encode()[:_LONGEST_STEM].decode(errors="ignore").strip("-.")
    slugs = {slug(name) for name in taken}
    if stem not in slugs:
        return stem
    number = 2
    while f"{stem}-{number}" in slugs:
        number += 1
    return f"{stem}-{number}"


def mail_row(letter: Letter, maker: str, mails: dict[str, set[str]]) -> tuple[Row, ...]:
    """The sender's address, kept where none is known yet: another one might be anybody's."""
    if not letter.sender or mails.get(maker):
        return ()
    return (Row(MAIL_TABLE, MAIL_COLUMNS, (maker, letter.sender)),)


def _asked(checked: Checked, board: Board) -> str:
    text = checked.name("To")
    if not text or (found := find_maker(board, text)):
        return found if text else ""
    fix = Names(board.makers).suggest(text) or "name a maker of this board."
    checked.bad("To", "must be a maker of this board", text, fix)
    return ""


def _giver(checked: Checked, here: Here) -> tuple[str, dict[str, str]]:
    """Who offers, by the name of their file, and the post of a maker who is new."""
    text = checked.name("From")
    country = checked.one_line("Country", 60)
    if not text:
        return "", {}
    countries = countries_in(here.settings.board.language)
    said = countries.find(country) if country else None
    if country and said is None:
        fix = countries.suggest(country) or "write its English name or its two-letter code."
        checked.bad("Country", "must be a country", country, fix)
        return "", {}
    if known := find_maker(here.board, text):
        own = here.board.makers[known].country
        if said and own and said != own:
            fix = "if it is another person, have them add a word to their name."
            checked.bad("Country", f"must be {own}, where {known} of this board is", said, fix)
        elif said:
            fix = "make sure that it is the same person before you say yes."
            checked.warn("From", f"is taken to be {known}, who is on the board already", text, fix)
        return known, {}
    if said is None:
        hint = Names(here.board.makers).suggest(text)
        fix = f"{hint} If they are new here, add a line Country:.".lstrip()
        checked.bad("From", "must be a maker of this board, or come with a Country", text, fix)
        return "", {}
    name = free_name(text, here.board.makers)
    return name, {f"makers/{name}.md": write_post([("Name", text), ("Country", said)])}


def _cards(checked: Checked, here: Here, key: str, maker: str) -> list[str]:
    """The cards of a list, all on the board, each of this maker's and available."""
    found: list[str] = []
    entries = checked.form.values.get(key.lower(), ())
    if not entries:
        checked.bad(key, "must name a card", None, f"write the card's name below {key}:.")
    if len(entries) > MOST_CARDS:
        fix = "make several offers of it."
        checked.bad(key, f"must name at most {MOST_CARDS} cards", None, fix)
        return []
    for entry in entries:
        name = _card(checked, here, key, maker, tidy(entry.text), entry.line)
        if name in found:
            fix = "take one of them out."
            checked.bad(key, "must name each card once", entry.text, fix, entry.line)
        found += [name] if name else []
    return found


def _card(checked: Checked, here: Here, key: str, maker: str, text: str, line: int) -> str:
    if not checked.is_name(key, text, line):
        return ""
    names = Names(here.board.cards)
    name = names.find(text)
    if name is None:
        fix = names.suggest(text) or "name a card of this board by the name in its address."
        checked.bad(key, "must be a card of this board", text, fix, line)
        return ""
    card = here.board.cards[name]
    if maker and card.maker != maker:
        must = f"must be a card that {maker} made"
        checked.bad(key, must, name, f"it is {card.maker}'s: name another card.", line)
        return ""
    state, _ = here.stands[name]
    if state != State.AVAILABLE:
        claimed = claims_by_card(here.board.offers.values(), here.board.cards).get(name)
        why = f"{claimed[-1][0].path} has it" if claimed else f"{card.path} says so"
        checked.bad(key, f"must be available, and is {state.value}", name,
                    f"{why}: name another card.", line)  # fmt: skip
    return name


def _gives(
    checked: Checked, here: Here, letter: Letter, giver: str, is_new: bool
) -> tuple[list[str], tuple[NewCard, ...]]:
    """Names of the cards that are given, and those among them that come as pictures."""
    entries = checked.form.values.get("gives", ())
    pictured = [(entry, found) for entry in entries
                if (found := _PICTURE.fullmatch(tidy(entry.text)))]  # fmt: skip
    plain = [entry for entry in entries if not _PICTURE.fullmatch(tidy(entry.text))]
    names: list[str] = []
    if is_new and plain:
        must = "must be pictures, since whoever is new here has no card on the board"
        fix = "ask for a picture of each card, and a line like picture 1: Blue heron, gouache."
        checked.bad("Gives", must, plain[0].text, fix, plain[0].line)
    elif plain or not entries:
        form = checked.form
        own = Form(form.kind, form.where, form.line, form.values | {"gives": tuple(plain)})
        names = _cards(Checked(own, checked.problems), here, "Gives", giver)
    if len(entries) > MOST_CARDS:
        fix = "make several offers of it."
        checked.bad("Gives", f"must name at most {MOST_CARDS} cards", None, fix)
        return names, ()
    made = _new_cards(checked, here, giver, pictured, letter.pictures)
    return [*names, *(card.name for card in made)], tuple(made)


def _new_cards(checked: Checked, here: Here, giver: str, pictured, pictures) -> list[NewCard]:
    by_number = _by_number(checked, [int(found[1]) for _, found in pictured], pictures)
    taken = [*here.board.cards, *(photo.rpartition(".")[0] or photo for photo in here.photos)]
    taken += [name_of(left.path) for left in here.board.left_out if left.path.startswith("cards/")]
    made: list[NewCard] = []
    for entry, found in pictured:
        line = tidy(found[2] or "")
        if not checked.is_plain("Gives", line, LONGEST_LINE, entry.line):
            continue
        if int(found[1]) not in by_number:
            fix = "attach it as a file, and name it like picture-1.jpg."
            checked.bad("Gives", f"must come with its picture, picture-{int(found[1])}.jpg",
                        entry.text, fix, entry.line)  # fmt: skip
            continue
        title, media = _title_and_media(line, here.settings)
        title = title or f"A card by {tidy(checked.form.text('from'))}"
        name = free_name(title, taken)
        taken.append(name)
        fields = [("Title", title), ("Date", here.today.isoformat()), ("Maker", giver)]
        fields += [("Media", media)] if media else []
        made.append(NewCard(name, tuple(fields), by_number[int(found[1])]))
    return made


def _by_number(
    checked: Checked, numbers: list[int], pictures: tuple[Attached, ...]
) -> dict[int, Attached]:
    """Which picture each number means: by the files' names, or in their order where none
    has such a name and there are as many."""
    if len(set(numbers)) < len(numbers):
        checked.bad("Gives", "must give each picture a number of its own", None, "count them up.")
        return {}
    named = [(int(found[1]), picture) for picture in pictures
             if (found := _NUMBERED.fullmatch(picture.name))]  # fmt: skip
    if not named and len(pictures) == len(numbers):
        return dict(zip(sorted(numbers), pictures, strict=True))
    found: dict[int, Attached] = {}
    for number, picture in named:
        if found.setdefault(number, picture).data != picture.data:
            must = f"must have one picture of the name {picture.name}"
            checked.bad("Gives", must, None, "ask which of the two is meant.")
    extra = len(pictures) - sum(number in numbers for number, _ in named)
    if extra > 0:
        fix = "nothing, if it is not a card; else ask for a line for it below Gives:."
        checked.warn("Gives", "comes with pictures that no line names, and they are left out",
                     str(extra), fix)  # fmt: skip
    return {number: picture for number, picture in found.items() if number in numbers}


def _title_and_media(line: str, settings: Settings) -> tuple[str, str]:
    """"Blue heron, gouache" is a title and a medium, where all after the first comma are
    media; else the line is the title."""
    title, comma, rest = line.partition(",")
    known = media_for(settings.words, settings.board.language)
    media = [known.find(tidy(part)) for part in rest.split(",")] if comma else []
    if media and all(media) and tidy(title):
        return tidy(title), ", ".join(dict.fromkeys(media))
    return line, ""


def _check_new(checked: Checked, here: Here, giver: str, to: str, gives, asks) -> None:
    """An offer that is open already is not written twice."""
    found = states(here.board, here.today, here.settings.swaps.offer_days)
    for name, offer in here.board.offers.items():
        same = (offer.from_maker, offer.to_maker) == (giver, to)
        same = same and set(offer.gives) == set(gives) and set(offer.asks) == set(asks)
        if same and found[name] == OfferState.PROPOSED:
            fix = "nothing: it has been taken before."
            checked.bad("", f"is on the board already, as {offer.path}", None, fix)


def _post(here: Here, giver: str, to: str, gives, asks, new_cards, note: str) -> tuple[str, str]:
    titles = {card.name: dict(card.fields)["Title"] for card in new_cards}
    titles |= {name: card.title for name, card in here.board.cards.items() if name not in titles}
    more = f" and {len(gives) - 1} more" if len(gives) > 1 else ""
    title = f"{titles[gives[0]]}{more} for {titles[asks[0]]}{more}"
    taken = [*here.board.offers, *(name_of(left.path) for left in here.board.left_out)]
    name = free_name(f"{gives[0]}-for-{asks[0]}", taken)
    fields = [
        *([("Title", title)] if len(title) <= 300 else []),
        ("From", giver), ("To", to), ("Gives", ", ".join(gives)), ("Asks", ", ".join(asks)),
        (here.today.isoformat(), "proposed"),
    ]  # fmt: skip
    return f"offers/{name}.md", write_post(fields, note)


def _words(here: Here, path, giver, to, gives, asks, texts, new_cards, rows) -> tuple[str, ...]:
    said = [f"{made}: a new maker" for made in texts if made.startswith("makers/")]
    said += [f"cards/{card.name}.md: {dict(card.fields)['Title']}, a new card of {giver}'s, "
             f"with its picture" for card in new_cards]  # fmt: skip
    said.append(f"{path}: {giver} gives {', '.join(gives)} and asks {to} for "
                f"{', '.join(asks)}, {len(gives)} for {len(asks)}")  # fmt: skip
    said += [f"{row.path}: the address that {giver} wrote from" for row in rows]
    return tuple(said)
