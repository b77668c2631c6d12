"""A whole board: every text read, every reference checked, every problem named."""

from collections.abc import Collection, Mapping
from datetime import date
from typing import Any

from swapboard.problems import ERROR, Problem, in_order
from swapboard.records.drafts import BESIDE_CALLS, READERS, Drafts, read_drafts
from swapboard.records.references import resolve_references
from swapboard.records.standing import holds
from swapboard.records.swap_checks import check_cards, check_swaps
from swapboard.records.themes import check_own_words, settle_themes
from swapboard.records.types import Board, LeftOut, Offer, State
from swapboard.records.wants import read_wants
from swapboard.settings import PATH, Settings, read_settings


def read_board(
    texts: Mapping[str, str],
    photos: Collection[str],
    *,
    unread: Collection[str] = (),
    today: date | None = None,
) -> tuple[Board, Settings, list[Problem]]:
    """Read a board from its texts.

    `texts` gives the text of each file by its path in the board's folder;
    `photos` are the names in photos/; `unread` are the paths of files that are
    there but have no text (not UTF-8, too big), which whoever found them has
    reported: they are left out, but their names are known. `today` lets
    unanswered offers expire; without it their cards have to be available for
    ever.

    A record with an error is left out of the board and stands, with its reason,
    in `left_out`; records that refer to it stay, so only a board without
    errors, or one from `set_aside`, is closed under references. Reading the
    same texts in any order gives the same result. Costs about 0.15 ms a card.
    """
    settings, problems = _read_settings(texts, unread)
    drafts = read_drafts(texts, settings, problems, unread)
    check_own_words(drafts)
    resolve_references(drafts, photos)
    settle_themes(drafts)
    read_wants(drafts)
    check_swaps(drafts, today)
    check_cards(drafts)
    return _board(drafts), settings, in_order(drafts.problems)


def _read_settings(
    texts: Mapping[str, str], unread: Collection[str]
) -> tuple[Settings, list[Problem]]:
    if PATH in texts:
        return read_settings(texts[PATH])
    if PATH in unread:
        return Settings(), []
    fix = "make a board with the command start, or add the file with a line format = 1."
    return Settings(), [Problem(PATH, 0, "", "must be there", None, fix)]


def _board(drafts: Drafts) -> Board:
    broken = dict.fromkeys(drafts.broken, "has an error")
    for path in drafts.broken:
        for ending in BESIDE_CALLS:
            if path.endswith(ending):
                call = path.removesuffix(ending) + ".md"
                broken.setdefault(call, f"{path} has an error")
    kinds: dict[str, dict[str, Any]] = {}
    left_out = {
        path: LeftOut(path, why, unread=path.startswith("offers/"))
        for path, why in broken.items()
        if path != PATH
    }
    for kind in READERS:
        records = drafts.records[kind]
        kinds[kind] = {name: r for name, r in records.items() if r.path not in broken}
    for offer in (*drafts.records["offers"].values(), *drafts.beside):
        if isinstance(offer, Offer) and offer.path in broken:
            left_out[offer.path] = _left_out_offer(drafts, offer, broken[offer.path])
    ordered = tuple(left_out[path] for path in sorted(left_out))
    return Board(**kinds, left_out=ordered)


def _left_out_offer(drafts: Drafts, offer: Offer, why: str) -> LeftOut:
    """An offer's word outlives it; where its word is in doubt its cards are held."""
    known = drafts.records["cards"]
    named = (*offer.gives, *offer.asks)
    if offer.path in drafts.unreadable:
        held = tuple((card, State.SPOKEN_FOR) for card in sorted(set(named)))
    else:
        held = holds(offer)
    held = tuple((card, state) for card, state in held if card in known)
    is_whole = offer.gives and (offer.asks or offer.round)
    unread = not is_whole or not all(card in known for card in named)
    return LeftOut(offer.path, why, held, unread)


def errors_by_path(problems: Collection[Problem]) -> dict[str, list[Problem]]:
    """The errors of each file, in order."""
    found: dict[str, list[Problem]] = {}
    for problem in in_order(problems):
        if problem.severity == ERROR:
            found.setdefault(problem.path, []).append(problem)
    return found
