"""Errands around offers: who has to answer, mail or receive what, and since when."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from swapboard.records.overtaken import Overtaking, agreed_on, last_day, overtaken, states
from swapboard.records.rounds import parcels_of_round
from swapboard.records.standing import Side, claims, sides
from swapboard.records.types import Board, Offer, OfferState, State
from swapboard.settings import Settings
from swapboard.today.types import Errand, by_urgency
from swapboard.today.words import Mailing, Writer

Reasons = Mapping[tuple[str, str], str]
# What a round cannot get over: it needs the yes of each of its makers.
_OVER = (OfferState.DECLINED, OfferState.WITHDRAWN, OfferState.EXPIRED, OfferState.OVERTAKEN)


def offer_errands(
    board: Board, today: date, settings: Settings | None = None, why: Reasons | None = None
) -> tuple[Errand, ...]:
    """What is to be done about each offer on a day, the most urgent first.

    `why` has, by taker and card, the want that a card fills. An answer is due on the
    last day before the offer expires, cards and arrivals so many days after the yes and
    the mailing as the settings say. An expired offer is told of for as long again.
    """
    settings = settings or Settings()
    return _Errands(board, today, settings, why or {}).all()


class _Errands:
    """The errands of one day."""

    def __init__(self, board: Board, today: date, settings: Settings, why: Reasons) -> None:
        self._board, self._today, self._swaps, self._why = board, today, settings.swaps, why
        self._keeper = settings.board.keeper
        self._writer = Writer(board, settings)
        self._overtaken = overtaken(board)
        self._states = states(board, today, self._swaps.offer_days)

    def all(self) -> tuple[Errand, ...]:
        found: list[Errand] = []
        for name, state in self._states.items():
            offer = self._board.offers[name]
            if off := self._round_is_off(offer, state):
                found.append(off)
            elif state == OfferState.PROPOSED:
                found.append(self._to_answer(offer))
            elif state == OfferState.EXPIRED:
                found += self._expired(offer)
            elif state == OfferState.OVERTAKEN:
                found.append(self._gone(offer, self._overtaken[name]))
            elif state in (OfferState.AGREED, OfferState.ON_THEIR_WAY):
                found += self._under_way(offer)
            elif state == OfferState.LOST:
                found += self._lost(offer)
        keeper = (self._keeper,)
        # Nobody writes to themselves.
        found = [replace(errand, draft=None) if errand.draft and errand.draft.to == keeper
                 else errand for errand in found]
        return tuple(sorted(found, key=by_urgency))

    def _to_answer(self, offer: Offer) -> Errand:
        last = last_day(offer, self._swaps.offer_days)
        swap = (
            f"{_cards(offer.gives)} for {_cards(offer.asks)}" if offer.asks
            else f"{_cards(offer.gives)}, in the round {' → '.join(offer.round)}"
        )  # fmt: skip
        what = f"{offer.to_maker} owes {offer.from_maker} an answer: {swap}"
        draft = self._writer.asked(offer, last, self._mailings(offer))
        return Errand(last, offer.path, (offer.to_maker,), what, _first(offer), draft)

    def _expired(self, offer: Offer) -> Iterator[Errand]:
        last = last_day(offer, self._swaps.offer_days)
        if (self._today - last).days <= self._swaps.offer_days:
            what = (
                f"expired without an answer: tell {offer.from_maker}, then run "
                f"swapboard offer {offer.name} withdrawn"
            )
            since = _later(last, 1)
            yield Errand(since, offer.path, (), what, since, self._writer.expired(offer, last))

    def _gone(self, offer: Offer, taken: Overtaking) -> Errand:
        draft = self._writer.overtaken(offer, taken.card)
        what = (
            f"overtaken: {taken.card} went with offers/{taken.by}.md; tell {draft.to[0]}, and "
            f"run swapboard offer {offer.name} "
            f"{'withdrawn' if taken.card in offer.gives else 'declined'}"
        )
        return Errand(taken.on, offer.path, (), what, taken.on, draft)

    def _round_is_off(self, offer: Offer, state: OfferState) -> Errand | None:
        """A parcel of a round that somebody left: nothing is mailed for it any more."""
        others = parcels_of_round(self._board, offer) if offer.round else ()
        left = next((one for one in others if self._states[one.name] in _OVER), None)
        if left is None or state not in (OfferState.PROPOSED, OfferState.AGREED):
            return None
        since = max((event.on for event in left.events), default=None)
        what = (
            f"the round is off, since {left.path} is {self._states[left.name].value}: tell "
            f"{offer.to_maker}, and run swapboard offer {offer.name} withdrawn"
        )
        return Errand(since, offer.path, (), what, since, self._writer.round_off(offer))

    def _under_way(self, offer: Offer) -> Iterator[Errand]:
        parcels = parcels_of_round(self._board, offer)
        if any(self._states[one.name] == OfferState.PROPOSED for one in parcels):
            return  # nobody mails before all have said yes
        agreed = max(map(agreed_on, parcels))
        first, second = sides(offer)
        if not (first.mailed or second.mailed):
            what = (
                f"introduce {offer.from_maker} and {offer.to_maker}, who have agreed, unless you "
                "have"
            )
            draft = self._writer.introduction(offer, self._mailings(offer), agreed)
            yield Errand(agreed, offer.path, (), what, agreed, draft)
        for giver, taker in _ways(offer):
            cards = _cards(giver.cards)
            if not giver.mailed:
                due = _later(agreed, self._swaps.mail_days)
                what = f"{giver.maker} owes {taker.maker} {cards}, to be mailed"
                draft = self._writer.nudge(offer, giver.maker, giver.cards, agreed)
                yield Errand(due, offer.path, (giver.maker,), what, agreed, draft)
            elif not taker.received:
                mailed = _day(offer, "mailed", giver.maker)
                due = _later(mailed, self._swaps.arrive_days)
                verb = "is on its" if len(giver.cards) == 1 else "are on their"
                what = f"{cards} from {giver.maker} {verb} way to {taker.maker}"
                draft = self._writer.arrived(offer, taker.maker, giver.cards, mailed)
                yield Errand(due, offer.path, (taker.maker,), what, mailed, draft)

    def _lost(self, offer: Offer) -> Iterator[Errand]:
        open_cards = [card for card, state in claims(offer, self._board.cards)
                      if state == State.SPOKEN_FOR]  # fmt: skip
        if open_cards:
            lost = _day(offer, "lost")
            what = (
                f"lost on the way: ask both what they would like, then write State: into "
                f"{_cards([f'cards/{card}.md' for card in open_cards])}"
            )
            yield Errand(lost, offer.path, (), what, lost, self._writer.lost(offer))

    def _mailings(self, offer: Offer) -> Sequence[Mailing]:
        """What goes where in an offer, or in the whole of its round."""
        ways = [way for one in parcels_of_round(self._board, offer) for way in _ways(one)]
        return [
            Mailing(giver.maker, taker.maker, giver.cards,
                    tuple(self._why.get((taker.maker, card), "") for card in giver.cards))
            for giver, taker in ways
        ]  # fmt: skip


def _ways(offer: Offer) -> list[tuple[Side, Side]]:
    first, second = sides(offer)
    return [(giver, taker) for giver, taker in ((first, second), (second, first)) if giver.cards]


def _cards(names: Sequence[str]) -> str:
    return ", ".join(names)


def _first(offer: Offer) -> date | None:
    return offer.events[0].on if offer.events else None


def _day(offer: Offer, what: str, by: str = "") -> date:
    """The day of the first such line."""
    return min(event.on for event in offer.events
               if event.what == what and by in ("", event.by))  # fmt: skip


def _later(day: date, days: int) -> date:
    try:
        return day + timedelta(days)
    except OverflowError:
        return day
