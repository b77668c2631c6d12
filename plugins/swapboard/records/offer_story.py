"""Whether an offer's dated lines can have happened in this order."""

from collections.abc import Iterator

from swapboard.problems import Problem
from swapboard.records.types import Event, Offer

_ENDS = ("declined", "withdrawn")


def story_problems(offer: Offer) -> Iterator[Problem]:
    """A problem for each dated line that contradicts the ones before it.

    proposed → agreed → mailed by each → received by each; or declined,
    withdrawn (before anything is mailed), lost (after).
    """
    before: list[Event] = []
    for event in offer.events:
        must = _order(event, before) or _contradiction(event, before, offer)
        if must:
            told = f"{event.what} by {event.by}" if event.by else event.what
            fix = "mend the line, or put the dated lines in the order in which they happened."
            yield Problem(offer.path, event.line, str(event.on), must, told, fix)
        else:
            before.append(event)


def _order(event: Event, before: list[Event]) -> str:
    if before and event.on < before[-1].on:
        return f"must not be before the line above it ({before[-1].on})"
    return ""


def _contradiction(event: Event, before: list[Event], offer: Offer) -> str:
    """What is wrong with a line after the good ones before it, or ""."""
    happened = {earlier.what for earlier in before}
    mailed = {earlier.by for earlier in before if earlier.what == "mailed"}
    received = {earlier.by for earlier in before if earlier.what == "received"}
    if event.what == "proposed":
        return "must be the first dated line, and only once" if before else ""
    if not before:
        return "must come after a line that says proposed"
    if ended := next((end for end in _ENDS if end in happened), ""):
        return f"must not come after {ended}"
    if len(received) == (1 if offer.round else 2):
        return "must not come after both have received their cards"
    if offer.round and event.by == (offer.to_maker if event.what == "mailed" else offer.from_maker):
        return f"must be in another offer of the round: in this one {_one_way(offer)}"
    check = {
        "agreed": _agreed,
        "declined": _declined,
        "withdrawn": _withdrawn,
        "mailed": _mailed,
        "received": _received,
        "lost": _lost,
    }[event.what]
    return check(event, happened, mailed, received, (offer.from_maker, offer.to_maker))


def _one_way(offer: Offer) -> str:
    return f"{offer.from_maker} mails and {offer.to_maker} receives"


def _agreed(event, happened, mailed, received, makers) -> str:
    return "must stand only once" if "agreed" in happened else ""


def _declined(event, happened, mailed, received, makers) -> str:
    return "must not come after agreed" if "agreed" in happened else ""


def _withdrawn(event, happened, mailed, received, makers) -> str:
    return "must not come after a card was mailed" if mailed else ""


def _mailed(event, happened, mailed, received, makers) -> str:
    if "agreed" not in happened:
        return "must come after a line that says agreed"
    return f"must stand only once for {event.by}" if event.by in mailed else ""


def _received(event, happened, mailed, received, makers) -> str:
    other = makers[1] if event.by == makers[0] else makers[0]
    if other not in mailed:
        return f"must come after a line that says mailed by {other}"
    return f"must stand only once for {event.by}" if event.by in received else ""


def _lost(event, happened, mailed, received, makers) -> str:
    if not mailed:
        return "must come after a line that says mailed by one of the two"
    return "must stand only once" if "lost" in happened else ""
