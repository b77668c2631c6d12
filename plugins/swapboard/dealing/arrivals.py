"""From a call's people to what is dealt: who has sent what, who gets how many back."""

from dataclasses import dataclass
from itertools import combinations

from swapboard.dealing.proof import Frozen
from swapboard.dealing.rules import MOST_CARDS
from swapboard.problems import WARNING, Problem
from swapboard.records.people import ENDING
from swapboard.records.standing import written_state
from swapboard.records.types import Board, Call, OfferState, Person
from swapboard.vocabulary.counts import counted


@dataclass(frozen=True, slots=True)
class Arrivals:
    """`arrived` counts cards by maker; `missing` are those of whom nothing has come."""

    frozen: Frozen
    arrived: dict[str, int]
    missing: tuple[str, ...]
    problems: tuple[Problem, ...]


def arrivals_of(board: Board, call: Call) -> Arrivals:
    """What a call's deal is made of, as its list of people stands.

    Whoever's cards have arrived gets as many back as they sent, less the host's
    cards (Send less Receive); the host owes none, and where they take part their own
    row counts without an arrival. Households come from the makers' posts; met are
    makers who have swapped on the board before, both ways.
    """
    path = call.path.removesuffix(".md") + ENDING
    keeps = max(0, call.send - call.receive)
    sent, arrived, missing, problems = {}, {}, [], []
    for person in call.people:
        if person.standing:
            problems += _set_apart(path, person)
            continue
        is_host = person.maker == call.host
        if is_host and not call.host_takes_part:
            must = "must not be the host where Host takes part says no"
            fix = "take the row out, or let the host take part."
            problems.append(Problem(path, person.line, "maker", must, person.maker, fix))
        elif not is_host and person.arrived is None:
            missing.append(person.maker)
        else:
            arrived[person.maker] = person.cards
            sent[person.maker] = max(0, person.cards - (0 if is_host else keeps * person.places))
            problems += _noted(path, person, call)
    if call.lines.get("host takes part") and call.host_takes_part and call.host not in sent:
        must = f"has no row for {call.host}, who is said to take part"
        fix = "add their row, or write Host takes part: no."
        problems.append(Problem(path, 0, "maker", must, None, fix, WARNING))
    if not any(sent.values()):
        must = "must have cards that arrived, before they can be dealt"
        fix = "write the day of arrival in the column arrived."
        problems.append(Problem(path, 0, "arrived", must, None, fix))
    if (total := sum(sent.values())) > MOST_CARDS:
        must = f"must be at most {MOST_CARDS} in all, to be dealt"
        fix = "look for a number that is too long."
        problems.append(Problem(path, 0, "cards", must, str(total), fix))
    frozen = Frozen(
        call=call.name, public=call.public_value, sent=sent, met=_met(board),
        # A pair of whom only one takes part would stand in the list for nothing.
        apart=tuple(pair for pair in _apart(board) if set(pair) <= set(sent)),
        relax=call.relax,
    )
    return Arrivals(frozen, arrived, tuple(sorted(missing)), tuple(problems))


def _set_apart(path: str, person: Person) -> list[Problem]:
    if person.arrived is None:
        return []
    must = f"has cards that arrived and is not in the deal, since standing says {person.standing}"
    fix = "empty the column standing, or send the cards back."
    return [Problem(path, person.line, "standing", must, person.maker, fix, WARNING)]


def _noted(path: str, person: Person, call: Call) -> list[Problem]:
    asked = call.send * person.places
    if person.cards == asked or person.maker == call.host:
        return []
    cards = counted(asked, "card")
    must = f"is not the {cards} that the call asks for; they get back by what arrived"
    fix = "nothing, if the number is right."
    return [Problem(path, person.line, "cards", must, str(person.cards), fix, WARNING)]


def _met(board: Board) -> tuple[tuple[str, str], ...]:
    pairs = {
        pair
        for offer in board.offers.values()
        if written_state(offer) == OfferState.COMPLETE
        for pair in (
            (offer.from_maker, offer.to_maker), (offer.to_maker, offer.from_maker)
        )
    }  # fmt: skip
    return tuple(sorted(pairs))


def _apart(board: Board) -> tuple[tuple[str, str], ...]:
    households: dict[str, list[str]] = {}
    for name, maker in board.makers.items():
        if maker.household:
            households.setdefault(maker.household.casefold(), []).append(name)
    groups = (sorted(together) for together in households.values())
    return tuple(sorted(pair for group in groups for pair in combinations(group, 2)))
