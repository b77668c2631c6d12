"""Addresses that nobody needs any more: proposed for erasing, never erased unasked."""

from dataclasses import dataclass
from datetime import date, timedelta

from swapboard.disk.addresses import read_addresses
from swapboard.disk.load import Loaded
from swapboard.records.standing import offer_state
from swapboard.records.types import Call, OfferState
from swapboard.vocabulary import slug

DAYS_KEPT = 60
_OPEN = {OfferState.PROPOSED, OfferState.AGREED, OfferState.ON_THEIR_WAY, OfferState.LOST}


@dataclass(frozen=True, slots=True)
class Erasure:
    """A maker whose address can go since the day `due`: their last call, `call`, was
    closed 60 days before, and no swap of theirs is open."""

    maker: str
    call: str
    due: date


def addresses_to_erase(loaded: Loaded) -> tuple[Erasure, ...]:
    """Those due on the board's day, sorted; for `today` to propose."""
    board, settings = loaded.board, loaded.settings
    kept, _ = read_addresses(loaded.folder, settings.board.language)
    waiting = {
        maker for offer in board.offers.values()
        if offer_state(offer, loaded.today, settings.swaps.offer_days) in _OPEN
        for maker in (offer.from_maker, offer.to_maker)
    }  # fmt: skip
    found = []
    for maker in sorted({p.maker for call in board.calls.values() for p in call.people}):
        title = board.makers[maker].title if maker in board.makers else maker
        if maker in waiting or not {slug(maker), slug(title)} & set(kept):
            continue
        ends = sorted((closed_on(call) or date.max, name) for name, call in board.calls.items()
                      if maker == call.host or any(p.maker == maker for p in call.people))
        last, call = ends[-1]
        if last < date.max - timedelta(days=DAYS_KEPT):
            due = last + timedelta(days=DAYS_KEPT)
            if due <= loaded.today:
                found.append(Erasure(maker, call, due))
    return tuple(found)


def closed_on(call: Call) -> date | None:
    """The day a call was closed or cancelled by its own lines, else its last date."""
    said = [e.on for e in call.events if e.what in ("closed", "cancelled")]
    return max(said) if said else call.mail_out_by or call.arrive_by
