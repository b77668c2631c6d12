"""Whether offers and cards agree: whose the cards are, and that each is spoken for once."""

from datetime import date

from swapboard.problems import WARNING, Problem
from swapboard.records.drafts import Drafts
from swapboard.records.offer_story import story_problems
from swapboard.records.overtaken import Claims, claims_by_card, overtaking
from swapboard.records.rounds import lacking_parcels
from swapboard.records.standing import offer_state, written_state
from swapboard.records.types import Card, Offer, OfferState, State


def check_swaps(drafts: Drafts, today: date | None) -> None:
    """Every check that needs an offer and its cards together.

    With no day given an unanswered offer never expires. A broken card is not
    checked against its offers: what is wrong with it is told already.
    """
    for offer in drafts.records["offers"].values():
        for problem in story_problems(offer):
            drafts.add(problem)
            drafts.unreadable.add(offer.path)
    offers = list(drafts.good("offers"))
    cards = {card.name: card for card in drafts.good("cards")}
    for offer in offers:
        _check_owners(drafts, offer, cards)
        _check_not_sent_in(drafts, offer, cards)
    for offer, way in lacking_parcels(offers):
        must = f"must have an offer for each parcel: there is none from {way[0]} to {way[1]}"
        fix = "write it, proposed on the same day, or take them all out."
        line = offer.lines.get("round", 0)
        drafts.add(Problem(offer.path, line, "Round", must, None, fix, WARNING))
    claimed = claims_by_card(offers, cards)
    for name in sorted(claimed):
        if name in cards:
            _check_once(drafts, cards[name], claimed[name])
            _check_typed(drafts, cards[name], claimed[name])
    for offer in offers:
        if _is_open(offer, drafts, today):
            _check_free(drafts, offer, cards, claimed)


def check_cards(drafts: Drafts) -> None:
    """Two cards for one day of a series, or for one spot of a picture: warnings."""
    days: dict[tuple, Card] = {}
    spots: dict[tuple, Card] = {}
    for card in drafts.good("cards"):
        if card.series and card.day is not None:
            first = days.setdefault((card.maker, card.series.casefold(), card.day), card)
            if first is not card:
                must, fix = f"is also the day of {first.path}", "mend the day, if it is wrong."
                _warn(drafts, card, "Day", must, str(card.day), fix)
        if card.photo and not card.cut_out_at:
            first = spots.setdefault((card.photo.file, card.photo.at), card)
            if first is not card:
                must = f"is also the picture of {first.path}"
                fix = f"say which card is meant: {card.photo.file} at 41% 22%."
                _warn(drafts, card, "Photo", must, card.photo.file, fix)


def _warn(drafts: Drafts, card: Card, key: str, must: str, got: str, fix: str) -> None:
    line = card.lines.get(key.lower(), 0)
    drafts.add(Problem(card.path, line, key, must, got, fix, WARNING))


def _check_owners(drafts: Drafts, offer: Offer, cards: dict[str, Card]) -> None:
    for key, maker, names in (
        ("Gives", offer.from_maker, offer.gives),
        ("Asks", offer.to_maker, offer.asks),
    ):
        for name in names:
            if name not in cards or cards[name].maker not in drafts.names["makers"]:
                continue
            if cards[name].maker != maker:
                must = f"must be cards that {maker} made"
                fix = f"{cards[name].path} says its maker is {cards[name].maker}."
                _bad(drafts, offer, key, must, name, fix)


def _check_not_sent_in(drafts: Drafts, offer: Offer, cards: dict[str, Card]) -> None:
    """A card sent in for a call is dealt, so nobody else can have it."""
    for name in (*offer.gives, *offer.asks):
        if name in cards and cards[name].call:
            must = f"must not name a card that was sent in for calls/{cards[name].call}.md"
            fix = f"name another card, or take the line Call out of {cards[name].path}."
            _bad(drafts, offer, _side(offer, name), must, name, fix)


def _check_once(drafts: Drafts, card: Card, claimed: list[tuple[Offer, State]]) -> None:
    for offer, _ in claimed[card.copies_left :]:
        holders = ", ".join(holder.path for holder, _ in claimed[: card.copies_left])
        if card.copies_left > 1:
            must = f"must have a copy left: all {card.copies_left} are spoken for by {holders}"
        elif holders:
            must = f"must be spoken for once: {holders} has it already"
        else:
            must = f"must have a copy left: {card.path} says there is none"
        fix = "add a line declined or withdrawn to one of the offers, or mend its cards."
        _bad(drafts, offer, _side(offer, card.name), must, card.name, fix)


def _check_typed(drafts: Drafts, card: Card, claimed: list[tuple[Offer, State]]) -> None:
    """A State typed in the card must not deny what an offer says."""
    line = card.lines.get("state", 0)
    if not line or len(claimed) < card.copies_left:
        return
    holding = [offer for offer, state in claimed if state == State.SPOKEN_FOR]
    said = State.SPOKEN_FOR if holding else State.TRADED
    if card.state != said:
        offer = holding[0] if holding else claimed[-1][0]
        must = f"must not deny {offer.path}, by which it is {said.value}"
        fix = "take the line out: the offer's dated lines say where the card stands."
        drafts.add(Problem(card.path, line, "State", must, card.state.value, fix))


def _is_open(offer: Offer, drafts: Drafts, today: date | None) -> bool:
    if today is None:
        return written_state(offer) == OfferState.PROPOSED
    return offer_state(offer, today, drafts.settings.swaps.offer_days) == OfferState.PROPOSED


def _check_free(drafts: Drafts, offer: Offer, cards: dict[str, Card], claimed: Claims) -> None:
    """A card that was free when it was asked for, and went elsewhere since, is no fault of
    the offer's: it is shown as overtaken."""
    for name in (*offer.gives, *offer.asks):
        card = cards.get(name)
        if card is None or overtaking(offer, card, claimed):
            continue
        holders = claimed.get(name, [])
        if len(holders) >= card.copies_left:
            why = f"{holders[-1][0].path} has it" if holders else f"{card.path} has no copy left"
        elif card.state != State.AVAILABLE:
            why = f"{card.path} says it is {card.state.value}"
        else:
            continue
        fix = f"{why}: add a line declined or withdrawn, or name another card."
        _bad(drafts, offer, _side(offer, name), "must name cards that are available", name, fix)


def _side(offer: Offer, card: str) -> str:
    return "Gives" if card in offer.gives else "Asks"


def _bad(drafts: Drafts, offer: Offer, key: str, must: str, got: str, fix: str) -> None:
    line = offer.lines.get(key.lower(), 0)
    drafts.add(Problem(offer.path, line, key, must, got, fix))
