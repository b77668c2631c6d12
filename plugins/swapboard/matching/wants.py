"""Which cards suit which want: sets of cards by theme, medium, maker and name."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from functools import reduce

from swapboard.records.types import Card, Part, Want
from swapboard.vocabulary import fold


class WantIndex:
    """Cards by everything that a want may say of them.

    Cards are numbered as given. A want's cards are found by intersecting the sets
    of its parts, the smallest first; equal conditions are looked up once.
    """

    def __init__(self, cards: Sequence[Card]) -> None:
        by_name: dict[tuple[str, str], set[int]] = defaultdict(set)
        for number, card in enumerate(cards):
            for theme in card.themes:
                by_name["theme", fold(theme)].add(number)
            for medium in card.media:
                by_name["medium", fold(medium)].add(number)
            by_name["maker", fold(card.maker)].add(number)
            by_name["card", fold(card.name)].add(number)
        self._by_name = {key: frozenset(found) for key, found in by_name.items()}
        self._all = frozenset(range(len(cards)))
        self._known: dict[tuple, frozenset[int]] = {}

    def suits(self, want: Want) -> frozenset[int]:
        """The numbers of the cards that suit a want; none where it was not understood.

        Every part of `all_of` holds and none of `none_of`. A want without a part in
        `all_of` says nothing and is suited by nothing.
        """
        if not want.understood or not want.all_of:
            return frozenset()
        key = (want.all_of, want.none_of)
        if key not in self._known:
            parts = sorted(map(self._part, want.all_of), key=len)
            found = reduce(frozenset.intersection, parts)
            self._known[key] = found.difference(*map(self._part, want.none_of))
        return self._known[key]

    def any_of(self, wants: Iterable[Want]) -> frozenset[int]:
        """The cards that suit at least one of several wants."""
        return frozenset().union(*map(self.suits, wants))

    def among(self, numbers: Iterable[int], wants: Sequence[Want]) -> frozenset[int]:
        """Those of some cards that suit at least one of several wants: for few cards
        and wants that nobody else has, where sets of all cards would be a waste."""
        return frozenset(
            number
            for number in numbers
            if any(
                want.understood
                and want.all_of
                and all(self._holds(part, number) for part in want.all_of)
                and not any(self._holds(part, number) for part in want.none_of)
                for want in wants
            )
        )

    def _holds(self, part: Part, number: int) -> bool:
        return part.kind == "anything" or any(
            number in self._by_name.get((part.kind, fold(name)), ()) for name in part.names
        )

    def _part(self, part: Part) -> frozenset[int]:
        if part.kind == "anything":
            return self._all
        sets = [self._by_name.get((part.kind, fold(name)), frozenset()) for name in part.names]
        return sets[0] if len(sets) == 1 else frozenset().union(*sets)
