"""References between files: makers, hosts, cards and pictures that have to exist."""

import unicodedata
from collections.abc import Collection
from dataclasses import replace

from swapboard.problems import WARNING, Problem, Suggestions
from swapboard.records.call_phase import places_taken, taking_part
from swapboard.records.drafts import Drafts
from swapboard.records.people import ENDING
from swapboard.records.types import Call, Card, Offer, Person, PhotoSpot
from swapboard.settings import PATH
from swapboard.vocabulary import slug
from swapboard.vocabulary.counts import counted


def resolve_references(drafts: Drafts, photos: Collection[str]) -> None:
    """Put the very names of files where a reference means them; report the others."""
    _check_keeper(drafts)
    pictures = _Pictures(drafts, photos)
    cards, calls, offers = (drafts.records[kind] for kind in ("cards", "calls", "offers"))
    for name, card in cards.items():
        cards[name] = _card(drafts, card, pictures)
    for name, call in calls.items():
        calls[name] = _call(drafts, call)
    for name, offer in offers.items():
        offers[name] = _offer(drafts, offer)
    drafts.beside = [
        _offer(drafts, record) if isinstance(record, Offer) else record for record in drafts.beside
    ]
    _check_places(drafts)


def _check_keeper(drafts: Drafts) -> None:
    settings, makers = drafts.settings, drafts.names["makers"]
    keeper = settings.board.keeper
    if PATH in drafts.broken:
        # Its keeper may be the default only because the file cannot be read.
        return
    if makers.find(keeper) is None:
        line = settings.lines.get("board.keeper", 0)
        fix = makers.suggest(keeper) or f"add makers/{slug(keeper)}.md."
        drafts.add(Problem(PATH, line, "keeper", "must be a file in makers/", keeper, fix))


def _named(drafts: Drafts, kind: str, text: str, path: str, line: int, key: str) -> str:
    """The name that a text means; one that is not there is a problem and stays."""
    names = drafts.names[kind]
    if not text or (found := names.find(text)) is None:
        if text:
            fix = names.suggest(text) or f"add {kind}/{slug(text)[:60]}.md, or name another."
            must = f"must be the name of a file in {kind}/"
            drafts.add(Problem(path, line, key, must, text, fix))
        return text
    return found


def _person(drafts: Drafts, kind: str, text: str, path: str, line: int, key: str) -> str:
    """A maker or host, who defaults to the keeper: a missing keeper is told once."""
    makers = drafts.names["makers"]
    if not line and makers.find(text) is None:
        return text
    return _named(drafts, kind, text, path, line, key)


def _card(drafts: Drafts, card: Card, pictures: "_Pictures") -> Card:
    line = card.lines.get("maker", 0)
    maker = _person(drafts, "makers", card.maker, card.path, line, "Maker")
    photo = pictures.find(card, card.photo, "Photo")
    back = pictures.find(card, card.back, "Back")
    call = _named(drafts, "calls", card.call, card.path, card.lines.get("call", 0), "Call")
    if (maker, photo, back, call) == (card.maker, card.photo, card.back, card.call):
        return card
    return replace(card, maker=maker, photo=photo, back=back, call=call)


def _call(drafts: Drafts, call: Call) -> Call:
    host = _person(drafts, "makers", call.host, call.path, call.lines.get("host", 0), "Host")
    path = call.path.removesuffix(".md") + ENDING
    people = tuple(_row(drafts, path, person) for person in drafts.people.get(call.name, ()))
    return replace(call, host=host, people=people, deal=drafts.deals.get(call.name))


def _row(drafts: Drafts, path: str, person: Person) -> Person:
    makers = drafts.names["makers"]
    if found := makers.find(person.maker):
        return replace(person, maker=found)
    if near := makers.suggest(person.maker):
        must = "is no maker of this board, so it is shown as a plain name"
        drafts.add(Problem(path, person.line, "maker", must, person.maker, near, WARNING))
    return person


def _offer(drafts: Drafts, offer: Offer) -> Offer:
    def maker(text: str, key: str) -> str:
        return _named(drafts, "makers", text, offer.path, offer.lines.get(key.lower(), 0), key)

    def cards(texts: tuple[str, ...], key: str) -> tuple[str, ...]:
        line = offer.lines.get(key.lower(), 0)
        found = (_named(drafts, "cards", text, offer.path, line, key) for text in texts)
        return tuple(dict.fromkeys(found))

    from_maker, to_maker = maker(offer.from_maker, "From"), maker(offer.to_maker, "To")
    names = {offer.from_maker: from_maker, offer.to_maker: to_maker}
    return replace(
        offer,
        from_maker=from_maker,
        to_maker=to_maker,
        gives=cards(offer.gives, "Gives"),
        asks=cards(offer.asks, "Asks"),
        round=tuple(maker(text, "Round") for text in offer.round),
        events=tuple(replace(event, by=names.get(event.by, event.by)) for event in offer.events),
    )


def _check_places(drafts: Drafts) -> None:
    for call in drafts.records["calls"].values():
        path = call.path.removesuffix(".md") + ENDING
        taken = 0
        for person in taking_part(call):
            taken += person.places
            if person.places > 1 and not call.two_places:
                must = f"must be 1, since {call.path} does not say Two places: yes"
                fix = "write 1, or add the line to the call."
                drafts.add(Problem(path, person.line, "places", must, str(person.places), fix))
            if call.places and taken > call.places:
                most = counted(call.places, "person", "people")
                must = f"must have at most {most}, the Places of {call.path}"
                fix = "write waiting in the column standing, take somebody out, or raise Places."
                got = str(places_taken(call))
                drafts.add(Problem(path, person.line, "maker", must, got, fix))
                break


class _Pictures:
    """The files of photos/, found as written; NFC and NFD are one name, case is not."""

    def __init__(self, drafts: Drafts, photos: Collection[str]) -> None:
        self._drafts = drafts
        ordered = sorted(photos, reverse=True)
        self._by_name = {unicodedata.normalize("NFC", name): name for name in ordered}
        self._by_fold = {name.casefold(): name for name in self._by_name}
        self._by_stem = {_stem(name): name for name in self._by_name}
        self._suggestions = Suggestions(self._by_name)

    def find(self, card: Card, spot: PhotoSpot | None, key: str) -> PhotoSpot | None:
        """The spot with the file's name as it is on disk; None and a problem without."""
        if spot is None:
            return None
        name = self._by_name.get(spot.file)
        if name == spot.file:
            return spot
        if name is not None:
            return PhotoSpot(name, spot.at)
        if other := self._by_fold.get(spot.file.casefold()):
            fix = f"write {other}: that file exists, and names are case sensitive."
        elif other := self._by_stem.get(_stem(spot.file)):
            fix = f"write {other}: the ending is part of the name."
        else:
            fix = self._suggestions.near(spot.file) or "put the picture into photos/."
        line = card.lines.get(key.lower(), 0)
        must = "must be a picture in photos/"
        self._drafts.add(Problem(card.path, line, key, must, spot.file, fix))
        return None


def _stem(file: str) -> str:
    """A picture's name without its ending and without regard to case."""
    return (file.rpartition(".")[0] or file).casefold()
