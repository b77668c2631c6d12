"""An offer's form against the board: a new post, and what it needs that is not there yet."""

from swapboard.problems import Problem
from swapboard.records.header import write_post
from swapboard.records.names import Names
from swapboard.records.new_offer import NewOffer, free_name, offer_post
from swapboard.records.overtaken import claims_by_card, states
from swapboard.records.types import Board, OfferState, State
from swapboard.taking.fit import Checked, find_maker
from swapboard.taking.here import Here, mail_row
from swapboard.taking.new_cards import PICTURE, cards_of_pictures
from swapboard.taking.types import Change, Form, Letter, NewCard
from swapboard.vocabulary import tidy
from swapboard.vocabulary.countries import countries_in

MOST_CARDS = 50


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
    if checked.is_good and len(gives) != len(asks):
        must = f"must name as many cards as Asks ({len(asks)}, not {len(gives)})"
        fix = "a swap is one for one, or n for n: add or take out cards on one side."
        checked.bad("Gives", must, None, fix)
    if checked.is_good:
        _check_new(checked, here, giver, to, gives, asks)
    if not checked.is_good:
        return None, checked.problems
    texts = dict(new_maker)
    titles = {card.name: dict(card.fields)["Title"] for card in new_cards}
    made = NewOffer(giver, to, tuple(gives), tuple(asks), note)
    path, text = offer_post(made, here.board, here.today, titles)
    texts[path] = text
    rows = mail_row(letter, giver, here.mails)
    words = _words(here, path, giver, to, gives, asks, texts, new_cards, rows)
    return Change(texts, new_cards, rows, (), words), checked.problems


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
                if (found := PICTURE.fullmatch(tidy(entry.text)))]  # fmt: skip
    plain = [entry for entry in entries if not PICTURE.fullmatch(tidy(entry.text))]
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
    made = cards_of_pictures(checked, here, giver, pictured, letter.pictures)
    return [*names, *(card.name for card in made)], tuple(made)


def _check_new(checked: Checked, here: Here, giver: str, to: str, gives, asks) -> None:
    """An offer that is open already is not written twice."""
    found = states(here.board, here.today, here.settings.swaps.offer_days)
    for name, offer in here.board.offers.items():
        same = (offer.from_maker, offer.to_maker) == (giver, to)
        same = same and set(offer.gives) == set(gives) and set(offer.asks) == set(asks)
        if same and found[name] == OfferState.PROPOSED:
            fix = "nothing: it has been taken before."
            checked.bad("", f"is on the board already, as {offer.path}", None, fix)


def _words(here: Here, path, giver, to, gives, asks, texts, new_cards, rows) -> tuple[str, ...]:
    said = [f"{made}: a new maker" for made in texts if made.startswith("makers/")]
    said += [f"cards/{card.name}.md: {dict(card.fields)['Title']}, a new card of {giver}'s, "
             f"with its picture" for card in new_cards]  # fmt: skip
    said.append(f"{path}: {giver} gives {', '.join(gives)} and asks {to} for "
                f"{', '.join(asks)}, {len(gives)} for {len(asks)}")  # fmt: skip
    said += [f"{row.path}: the address that {giver} wrote from" for row in rows]
    return tuple(said)
