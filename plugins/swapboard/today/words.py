"""The friendly mails that `today` drafts. No draft holds anybody's address: each goes to
each of its makers alone, so that nobody learns another's without both having said yes."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from swapboard.records.types import Board, Offer
from swapboard.settings import Settings
from swapboard.today.types import Draft
from swapboard.vocabulary.counts import counted


@dataclass(frozen=True, slots=True)
class Mailing:
    """What one maker mails to another in a swap: cards by name, and for each the want of
    the taker that it fills, "" where none is known."""

    giver: str
    taker: str
    cards: tuple[str, ...]
    wants: tuple[str, ...] = ()


class Writer:
    """Drafts for one board, in the keeper's name."""

    def __init__(self, board: Board, settings: Settings) -> None:
        self._board, self._settings = board, settings

    def maker(self, name: str) -> str:
        """A maker's public name."""
        maker = self._board.makers.get(name)
        return maker.title if maker else name

    def cards(self, names: Sequence[str]) -> str:
        """Titles of cards in a row."""
        return _row([self._title(name) for name in names])

    def asked(self, offer: Offer, last: date, parcels: Sequence[Mailing] = ()) -> Draft:
        """To whoever was asked: what is offered, and how to say yes or no. Of a round
        `parcels` says what goes where."""
        giver, asked = self.maker(offer.from_maker), self.maker(offer.to_maker)
        note = [f"{giver} writes:", *_indented(offer.body), ""] if offer.body.strip() else []
        swap = [
            f"{giver} would like to swap with you on {self._name}:", "",
            f"    you would get: {self.cards(offer.gives)}",
            f"    you would give: {self.cards(offer.asks)}",
        ]  # fmt: skip
        if offer.round:
            swap = [
                f"there is a swap for you on {self._name} that goes round: each mails to one and "
                "gets", "from another. It needs the yes of all.", "", *self._mailings(parcels),
            ]  # fmt: skip
        lines = [
            f"Hello {asked},", "", *swap, *self._link(offer), "", *note,
            f"It stands open until {last}. If you like it, or would rather not, answer with "
            "these", "lines and write yes or no behind News:", "",
            *self._news(offer, offer.to_maker),
        ]  # fmt: skip
        return self._draft((offer.to_maker,), f"A swap offered to you: {offer.title}", lines)

    def introduction(self, offer: Offer, why: Sequence[Mailing], agreed: date) -> Draft:
        """To both makers of an offer that was agreed: what, why it suits, how to go on."""
        makers = (offer.from_maker, offer.to_maker)
        lines = [
            f"Hello {_row([self.maker(name) for name in makers])},", "",
            f"you have agreed on a swap on {self._name}, on {agreed}:", "", *self._mailings(why),
            *self._link(offer), "", *(_ROUND if offer.round else ()), *_EXCHANGE, "",
            f"Please mail within {counted(self._settings.swaps.mail_days, 'day')}, and tell me "
            "when yours is on its", "way, and when the other's has arrived.",
        ]  # fmt: skip
        return self._draft(makers, f"Your swap: {offer.title}", lines)

    def proposal(self, mailings: Sequence[Mailing]) -> Draft:
        """To makers whom the board proposes a swap to."""
        makers = tuple(mailing.giver for mailing in mailings)
        ring = "" if len(makers) == 2 else (
            " It goes round: each of you mails to one and gets from another."
        )
        lines = [
            f"Hello {_row([self.maker(name) for name in makers])},", "",
            f"{self._name} looked for swaps that suit everybody in them, and found this one "
            f"for you.{ring}", "", *self._mailings(mailings), "",
            "Nothing is settled: each card is yours until you say yes. Does it please you?",
            "Then answer me with a yes; when all have, I write it down as agreed.", "",
            *_EXCHANGE,
        ]  # fmt: skip
        return self._draft(makers, f"A swap that would suit you on {self._name}", lines)

    def round_off(self, offer: Offer) -> Draft:
        """To a maker of a round that somebody left."""
        lines = [
            f"Hello {self.maker(offer.to_maker)},", "",
            f"the round in which {self.cards(offer.gives)} was to go from "
            f"{self.maker(offer.from_maker)} to you", "will not come about: it needed the yes of "
            "all, and one of them could not join. Please mail", "nothing for it. Your cards are "
            "free for other swaps.",
        ]  # fmt: skip
        return self._draft((offer.to_maker,), f"Not this time: {offer.title}", lines)

    def nudge(self, offer: Offer, giver: str, cards: Sequence[str], agreed: date) -> Draft:
        """To a maker whose cards are not on their way yet."""
        taker = offer.to_maker if giver == offer.from_maker else offer.from_maker
        lines = [
            f"Hello {self.maker(giver)},", "",
            f"on {agreed} you and {self.maker(taker)} agreed that {self.cards(cards)} goes to "
            "them.", "Has it been mailed? If so, answer with these lines and write mailed behind "
            "News:; if", f"it takes longer, tell me or {self.maker(taker)}, and all is well.", "",
            *self._news(offer, giver),
        ]  # fmt: skip
        return self._draft((giver,), f"On its way? {offer.title}", lines)

    def arrived(self, offer: Offer, taker: str, cards: Sequence[str], mailed: date) -> Draft:
        """To a maker to whom cards are on their way."""
        giver = offer.to_maker if taker == offer.from_maker else offer.from_maker
        lines = [
            f"Hello {self.maker(taker)},", "",
            f"{self.maker(giver)} mailed {self.cards(cards)} to you on {mailed}. Has it arrived?",
            "If it has, answer with these lines and write arrived behind News:; if not, tell me, "
            "and we", "see what can be done.", "", *self._news(offer, taker),
        ]  # fmt: skip
        return self._draft((taker,), f"Has it arrived? {offer.title}", lines)

    def expired(self, offer: Offer, last: date) -> Draft:
        """To whoever offered and got no answer."""
        lines = [
            f"Hello {self.maker(offer.from_maker)},", "",
            f"there was no answer by {last} to your offer of {self.cards(offer.gives)} for",
            f"{self.cards(offer.asks)}, so your cards are free for other swaps. That happens, and "
            "says", "nothing about them. You are welcome to offer again, or to look for another "
            "card.",
        ]  # fmt: skip
        return self._draft((offer.from_maker,), f"No answer this time: {offer.title}", lines)

    def overtaken(self, offer: Offer, card: str) -> Draft:
        """To whoever waits for a card that went elsewhere."""
        mine = card in offer.gives
        to = offer.to_maker if mine else offer.from_maker
        other = self.maker(offer.from_maker if mine else offer.to_maker)
        lines = [
            f"Hello {self.maker(to)},", "",
            f"{self._title(card)}, part of the offer between you and {other}, has gone with "
            "another", "swap in the meantime. Your own cards stay free. Perhaps another card of "
            f"{other}'s would", "please you as well?",
        ]  # fmt: skip
        return self._draft((to,), f"Gone before you: {offer.title}", lines)

    def lost(self, offer: Offer) -> Draft:
        """To both makers of a swap in which something was lost."""
        makers = (offer.from_maker, offer.to_maker)
        lines = [
            f"Hello {_row([self.maker(name) for name in makers])},", "",
            f"something of your swap, {offer.title}, seems to be lost in the post. Nobody is to "
            "blame.", "What would you like: wait a while longer, send another card, or leave it "
            "at that? Tell", "me what the two of you decide, and I put the cards right.",
        ]  # fmt: skip
        return self._draft(makers, f"Lost on the way: {offer.title}", lines)

    @property
    def _name(self) -> str:
        return self._settings.board.name

    def _title(self, name: str) -> str:
        card = self._board.cards.get(name)
        return card.title if card else name

    def _link(self, offer: Offer) -> list[str]:
        address = self._settings.board.address
        return ["", f"    {address}offers/{offer.name}.html"] if address else []

    def _mailings(self, mailings: Sequence[Mailing]) -> list[str]:
        lines = []
        for mailing in mailings:
            taker = self._board.makers.get(mailing.taker)
            where = f" ({taker.country})" if taker and taker.country else ""
            lines.append(f"    {self.maker(mailing.giver)} mails {self.cards(mailing.cards)} to "
                         f"{self.maker(mailing.taker)}{where}")  # fmt: skip
            wants = dict.fromkeys(filter(None, mailing.wants))
            lines += [f"        {self.maker(mailing.taker)} likes: {want}" for want in wants]
        return lines

    def _news(self, offer: Offer, by: str) -> list[str]:
        """The form to answer with. Its word is left out: an answer in which it is only
        quoted must not say anything."""
        return [
            _FORM, f"Board: {self._name}", f"Offer: {offer.name}", f"By: {by}",
            "News:", "End of news",
        ]  # fmt: skip

    def _draft(self, to: tuple[str, ...], subject: str, lines: list[str]) -> Draft:
        keeper = self.maker(self._settings.board.keeper)
        return Draft(to, subject, "\n".join([*_flowing(lines), "", "Kind regards,", keeper, ""]))


_FORM = "Swap news, form 1"
_EXCHANGE = (
    "Addresses are for the two who swap alone, and never go through the board. If I may pass",
    "your mail address on to whom you swap with, answer: yes, pass it on. When both have said",
    "so, I do, and you tell each other where to mail to. Without that yes I pass nothing on.",
)
_ROUND = (
    "It goes round: this mail is for the two of you between whom one parcel goes. The makers of",
    "the other parcels get theirs.", "",
)  # fmt: skip


def _flowing(lines: Sequence[str]) -> list[str]:
    """Each paragraph as one line, which the mail program breaks; a form, and what is
    indented, keeps its lines."""
    made: list[str] = []
    is_form = False
    for line in lines:
        is_form = line.startswith(_FORM) or (is_form and bool(line))
        flows = line and made and made[-1] and not is_form
        if flows and not line.startswith(" ") and not made[-1].startswith(" "):
            made[-1] += f" {line}"
        else:
            made.append(line)
    return made


def _row(words: Sequence[str]) -> str:
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def _indented(text: str) -> list[str]:
    return [f"    {line}".rstrip() for line in text.strip().split("\n")]
