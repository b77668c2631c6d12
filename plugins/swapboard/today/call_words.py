"""The friendly mails that `today` drafts for the host of a call. No draft holds anybody's
address, and none says of anybody that they were late but to themselves."""

from collections.abc import Sequence
from datetime import date

from swapboard.records.types import Board, Call, Person
from swapboard.today.types import Draft
from swapboard.vocabulary.counts import counted


class CallWriter:
    """Drafts for one call, in its host's name."""

    def __init__(self, board: Board, call: Call) -> None:
        self._board, self._call = board, call

    def reminder(self, person: Person, due: date) -> Draft:
        """Before the day: that it comes near, and what the cards need."""
        call = self._call
        needs = [f"    {each}" for each in call.must_have]
        lines = [
            f"the cards for “{call.title}” have to be here by {due}, and it takes a while on the "
            "road. You are down for "
            f"{counted(person.cards or call.send, 'card')}.",
            *(["", "Each card needs:", *needs] if needs else []),
            *self._postage(person), "",
            "If you cannot make it, tell me: somebody else may be glad of the place.",
        ]  # fmt: skip
        return self._draft((person,), f"{call.title}: cards by {due}", lines)

    def late(self, person: Person, due: date, last: date) -> Draft:
        """After the day, within the grace."""
        lines = [
            f"your cards for “{self._call.title}” were to be here by {due}, and I have not seen "
            "them yet. Are they on their way?", "",
            f"I wait until {last}. What comes after that I cannot deal, and send back to you.",
        ]  # fmt: skip
        return self._draft((person,), f"{self._call.title}: are your cards on their way?", lines)

    def without(self, person: Person) -> Draft:
        """After the grace: the deal is made without them, and no hard feelings."""
        lines = [
            f"your cards for “{self._call.title}” have not come, so I deal without them. If they "
            "come later, I send them back to you.", "",
            "No hard feelings: there will be another call.",
        ]  # fmt: skip
        return self._draft((person,), f"{self._call.title}: dealt without yours", lines)

    def a_place(self, person: Person) -> Draft:
        """To who waits: a place is free."""
        by = self._call.arrive_by
        due = f" The cards have to be here by {by}." if by else ""
        lines = [
            f"a place in “{self._call.title}” has become free, and you are first on the waiting "
            f"list.{due} Would you still like it?",
        ]
        return self._draft((person,), f"{self._call.title}: a place is free", lines)

    def on_its_way(self, people: Sequence[Person]) -> Draft:
        """To everybody: the envelopes are mailed."""
        lines = [
            f"all envelopes of “{self._call.title}” are on their way. Tell me when yours is there; "
            "the board shows then who got what.",
        ]
        return self._draft(people, f"{self._call.title}: on its way to you", lines)

    def is_it_there(self, person: Person) -> Draft:
        """To whom an envelope was mailed a while ago."""
        lines = [
            f"I mailed your envelope of “{self._call.title}” on {person.mailed}. Is it there? One "
            "word will do.",
        ]
        return self._draft((person,), f"{self._call.title}: is your envelope there?", lines)

    def lost(self, person: Person) -> Draft:
        """To whom a lost envelope was to go."""
        lines = [
            f"your envelope of “{self._call.title}”, mailed on {person.mailed}, seems to be lost. "
            "I am sorry. I fill another from the cards that I have left, and tell you when it is "
            "mailed.",
        ]
        return self._draft((person,), f"{self._call.title}: your envelope", lines)

    def _postage(self, person: Person) -> list[str]:
        maker = self._board.makers.get(person.maker)
        postage = dict(self._call.return_postage).get(maker.country if maker else "")
        return ["", f"Return postage from {maker.country}: {postage}"] if maker and postage else []

    def _draft(self, people: Sequence[Person], subject: str, lines: list[str]) -> Draft:
        names = [self._name(person.maker) for person in people]
        greeting = f"Hello {names[0]}," if len(names) == 1 else "Hello everybody,"
        body = "\n".join([greeting, "", *lines, "", self._name(self._call.host)])
        to = tuple(p.maker for p in people if p.maker != self._call.host)
        return Draft(to, subject, body)

    def _name(self, maker: str) -> str:
        known = self._board.makers.get(maker)
        return known.title if known else maker
