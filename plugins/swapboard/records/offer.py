"""offers/NAME.md: text → offer. What has become of it is in `standing`."""

import re

from swapboard.problems import Problem, did_you_mean
from swapboard.records.fields import DATE_FIX, Fields, parse_date
from swapboard.records.header import Field, Keys
from swapboard.records.names import title_of
from swapboard.records.post import instead_for, open_post
from swapboard.records.types import Event, Offer
from swapboard.settings import Settings
from swapboard.vocabulary import slug, tidy

_KNOWN = ("Title", "From", "To", "Gives", "Asks", "Round")
OFFER_KEYS = Keys(
    _KNOWN,
    instead_for(
        _KNOWN,
        {
            "maker": "From",
            "offers": "Gives",
            "give": "Gives",
            "cards": "Gives",
            "wants": "Asks",
            "ask": "Asks",
            "gets": "Asks",
            "ring": "Round",
        },
    ),
    dated=True,
)
ONE_SIDED = ("mailed", "received")
WHAT = ("proposed", "agreed", "declined", "withdrawn", *ONE_SIDED, "lost")
_INSTEAD = {
    "posted": "mailed",
    "sent": "mailed",
    "shipped": "mailed",
    "arrived": "received",
    "got": "received",
    "accepted": "agreed",
    "rejected": "declined",
    "refused": "declined",
    "cancelled": "withdrawn",
    "offered": "proposed",
}
_EVENT = re.compile(r"(\w+)(?:\s+by\s+(.+))?", re.IGNORECASE)
_MOST_CARDS = 50
_MOST_IN_ROUND = 4
_EVENT_FIX = "write a line like 2026-09-28: agreed, or 2026-09-30: mailed by and the maker's name."


def read_offer(path: str, text: str, settings: Settings) -> tuple[Offer, list[Problem]]:
    """An offer as its post has it; makers and cards are still as written."""
    name, header, fields = open_post(path, text, OFFER_KEYS)
    sides = {key: fields.text(key) for key in ("From", "To")}
    for key, side in sides.items():
        if key not in fields:
            fields.missing(key, "must name a maker", f"add {key}: and the maker's name.")
        elif side and key == "To" and slug(side) == slug(sides["From"]):
            fix = "an offer is between two makers."
            fields.bad(fields.get("To"), "must not be the maker in From", fix=fix)
    events = []
    for line in header.dated:
        if event := _read_event(fields, line, sides):
            events.append(event)
    if not header.dated:
        fix = "add a line like 2026-09-28: proposed below the others."
        fields.missing("", "must say when it was proposed", fix)
    offer = Offer(
        name=name,
        path=path,
        title=fields.text("Title") or title_of(name),
        from_maker=sides["From"],
        to_maker=sides["To"],
        gives=_read_cards(fields, "Gives"),
        asks=() if "Round" in fields else _read_cards(fields, "Asks"),
        events=tuple(events),
        body=header.body,
        round=_read_round(fields, sides),
        lines=fields.lines(header),
    )
    _check_count(fields, offer)
    return offer, fields.problems


def _read_cards(fields: Fields, key: str) -> tuple[str, ...]:
    if key not in fields:
        fields.missing(key, "must name a card", f"add {key}: and the card's name.")
    return tuple(item for item, _ in fields.items(key, most=_MOST_CARDS, longest=120))


def _read_round(fields: Fields, sides: dict[str, str]) -> tuple[str, ...]:
    """The makers of a round as written, each mailing to the next; () where it is none."""
    if (field := fields.get("Round")) is None:
        return ()
    names = tuple(item for item, _ in fields.items("Round", most=_MOST_IN_ROUND, longest=120))
    slugs = [slug(name) for name in names]
    if len(names) < 3 or len(set(slugs)) < len(slugs):
        fix = "name them in their order, each mailing to the next: Round: ada, bo, cy."
        fields.bad(field, "must name three or four makers, each once", fix=fix)
    elif all(sides.values()):
        ways = zip(slugs, [*slugs[1:], slugs[0]], strict=True)
        if (slug(sides["From"]), slug(sides["To"])) not in ways:
            must = "must have the maker in To right behind the one in From"
            fix = "put them in the order in which each mails to the next."
            fields.bad(field, must, fix=fix)
    if (asks := fields.get("Asks")) is not None:
        must = "must not stand beside Round: what From gets comes from another maker"
        fix = "take the line out; that parcel has an offer of its own."
        fields.bad(asks, must, fix=fix)
    return names


def _check_count(fields: Fields, offer: Offer) -> None:
    gives, asks = len(offer.gives), len(offer.asks)
    if gives != asks and gives and asks:
        must = f"must name as many cards as Gives ({gives}, not {asks})"
        fix = "a swap is one for one, or n for n: add or take out cards on one side."
        fields.bad(fields.get("Asks"), must, fix=fix)


def _read_event(fields: Fields, field: Field, sides: dict[str, str]) -> Event | None:
    day = parse_date(field.key)
    if day is None:
        return fields.bad(field, "must be a date like 2026-09-28", field.key, DATE_FIX)
    found = _EVENT.fullmatch(tidy(field.value).rstrip("."))
    what = found[1].casefold() if found else ""
    if what not in WHAT:
        must = f"must be one of: {' · '.join(WHAT)}"
        instead = _INSTEAD.get(what)
        fix = f'write "{instead}" instead.' if instead else did_you_mean(what, WHAT) or _EVENT_FIX
        return fields.bad(field, must, field.value, fix)
    by = ""
    if found[2]:
        by = next((side for side in sides.values() if side and slug(side) == slug(found[2])), "")
        if not by and all(sides.values()):
            fix = f"write {what} by {sides['From']}, or {what} by {sides['To']}."
            return fields.bad(field, "must be by one of the two makers", found[2], fix)
    elif what in ONE_SIDED:
        fix = f"say by whom: {what} by {sides['From'] or 'and the name of one of the two makers'}."
        return fields.bad(field, f"must say who has {what} the cards", field.value, fix)
    return Event(day, what, by, field.line)
