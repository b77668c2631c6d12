"""Publishing without the broken posts: what can go, and what has to go with it."""

import unicodedata
from collections.abc import Collection, Iterator
from dataclasses import replace

from swapboard.problems import Problem
from swapboard.records.board import errors_by_path
from swapboard.records.drafts import BESIDE_CALLS
from swapboard.records.names import Names, name_of
from swapboard.records.standing import holds
from swapboard.records.types import Board, Card, LeftOut, Offer
from swapboard.settings import Settings

_FOLDERS = ("cards/", "makers/", "calls/", "offers/", "pages/", "photos/")


def not_safe_to_set_aside(problems: Collection[Problem], settings: Settings) -> list[Problem]:
    """The errors that no board can be published without mending.

    They are those of board.toml, of the keeper's own post, and of files that
    are no part of a board.
    """
    keeper = Names([settings.board.keeper])
    unsafe = []
    for path, found in errors_by_path(problems).items():
        is_keeper = path.startswith("makers/") and keeper.find(name_of(path)) is not None
        if is_keeper or not path.startswith(_FOLDERS):
            unsafe += found
    return unsafe


def set_aside(board: Board, problems: Collection[Problem]) -> tuple[Board, list[str]]:
    """The largest board without an error in it, closed under references.

    A card goes with its maker or its picture, a call with its host, its list or
    a maker's error, an offer with its cards and makers. Cards that an offer
    left out had spoken for stay spoken for (`Board.left_out`). The second value
    has one sentence for each file left out, sorted by path. Ask
    `not_safe_to_set_aside` first.
    """
    out = {left.path: left for left in board.left_out}
    broken = {path: _reason(found[0]) for path, found in errors_by_path(problems).items()}
    for path, why in broken.items():
        if path in out:
            out[path] = replace(out[path], why=why)
        elif not path.startswith("photos/"):
            found = next((o for o in board.offers.values() if o.path == path), None)
            held = holds(found) if found else ()
            out[path] = LeftOut(path, why, held, path.startswith("offers/") and not found)
    makers = {n: m for n, m in board.makers.items() if m.path not in broken}
    cards = {n: c for n, c in board.cards.items() if not _goes(out, c, _card(c, makers, broken))}
    calls = {n: c for n, c in board.calls.items() if not _goes(out, c, _call(c, makers, broken))}
    offers = {
        n: o for n, o in board.offers.items() if not _goes(out, o, _offer(o, makers, cards, broken))
    }
    pages = {n: p for n, p in board.pages.items() if p.path not in broken}
    left_out = tuple(out[path] for path in sorted(out))
    smaller = Board(cards, makers, calls, offers, pages, left_out)
    return smaller, [_sentence(left, smaller) for left in left_out]


def _goes(out: dict[str, LeftOut], record, reasons: Iterator[str]) -> bool:
    """Whether a record has a reason to go; if so, note the first."""
    why = next(reasons, None)
    if why is None:
        return False
    held = holds(record) if isinstance(record, Offer) else ()
    out[record.path] = LeftOut(record.path, why, held)
    return True


def _card(card: Card, makers: dict, broken: dict[str, str]) -> Iterator[str]:
    if card.path in broken:
        yield broken[card.path]
    if card.maker not in makers:
        yield f"its maker, {card.maker}, is left out"
    for spot in (card.photo, card.back):
        if spot and (why := _photo_reason(spot.file, broken)):
            yield why


def _photo_reason(file: str, broken: dict[str, str]) -> str | None:
    path = f"photos/{file}"
    composed = unicodedata.normalize("NFC", path)
    if path in broken or composed in broken:
        return f"its picture, {path}, has an error"
    return None


def _call(call, makers: dict, broken: dict[str, str]) -> Iterator[str]:
    if call.path in broken:
        yield broken[call.path]
    for ending in BESIDE_CALLS:
        if (beside := call.path.removesuffix(".md") + ending) in broken:
            yield f"{beside} has an error"
    if call.host not in makers:
        yield f"its host, {call.host}, is left out"


def _offer(offer: Offer, makers: dict, cards: dict, broken: dict[str, str]) -> Iterator[str]:
    if offer.path in broken:
        yield broken[offer.path]
    for maker in (offer.from_maker, offer.to_maker):
        if maker not in makers:
            yield f"its maker {maker} is left out"
    for card in (*offer.gives, *offer.asks):
        if card not in cards:
            yield f"its card {card} is left out"


def _reason(problem: Problem) -> str:
    place = f"line {problem.line}, " if problem.line else ""
    field = f"{problem.field}: " if problem.field else ""
    return f"{place}{field}{problem.must}"


def _sentence(left: LeftOut, board: Board) -> str:
    text = f"{left.path}: {left.why}"
    held = sorted({card for card, _ in left.holds if card in board.cards})
    if held:
        text += f"; not free while it is left out: {', '.join(held)}"
    if left.unread:
        text += "; some of its cards could not be read: look whether they are shown as available"
    return text
