"""Why a deal cannot keep to all rules: which people and which numbers block it.

The most cards that can be dealt equal the narrowest cut (L. R. Ford and D. R.
Fulkerson, 1956): some takers are to get more than all givers together may send them.
Of all such cuts the one nearest to the takers is told, which is the same for every
fullest deal.
"""

from dataclasses import dataclass

from swapboard.dealing.flow import Table, saturate
from swapboard.dealing.rules import APART, DOUBLE, MET, Maker, Rules

KEPT = {
    MET: "nobody gets from a maker again",
    DOUBLE: "no two from one maker",
    APART: "pairs kept apart",
}


@dataclass(frozen=True, slots=True)
class Obstacle:
    """`takers` are to get `need` cards, and only `reach` can come to them.

    `kept` are the rules in force, besides "never one's own"; `givers` those who
    may send something to these takers, with the most they all can take from each.
    """

    kept: tuple[str, ...]
    takers: tuple[Maker, ...]
    need: int
    reach: int
    givers: tuple[tuple[Maker, int], ...]

    @property
    def words(self) -> str:
        """The obstacle as one or two sentences."""
        rules = ", ".join(["nobody's own", *(KEPT[rule] for rule in self.kept)])
        some = [f"{count} from {maker}" for maker, count in self.givers]
        sources = f": {_listed(some)}" if some else ""
        is_are = "is" if len(self.takers) == 1 else "are"
        return (
            f"{_listed([str(maker) for maker in self.takers])} {is_are} to get {self.need} "
            f"card{'s' if self.need != 1 else ''}, but only {self.reach} can reach them{sources}. "
            f"(Rules kept: {rules}.)"
        )


def obstacles_of(rules: Rules) -> tuple[Obstacle, ...]:
    """The obstacle to a deal that keeps all rules, then to one that relaxes the first
    of them, and so on; it ends where a deal is possible."""
    found = []
    there = _rules_there(rules)
    relaxable = [rule for rule in rules.relax if rule in there]
    for relaxed in range(len(relaxable) + 1):
        kept = tuple(rule for rule in there if rule not in relaxable[:relaxed])
        obstacle = _obstacle(rules, kept)
        if obstacle is None:
            break
        found.append(obstacle)
    return tuple(found)


def _rules_there(rules: Rules) -> list[str]:
    """The rules that this deal has any use for."""
    cells = {MET: rules.met, DOUBLE: max(rules.counts, default=0) > 1, APART: rules.apart}
    return [rule for rule in (MET, DOUBLE, APART) if cells[rule]]


def _obstacle(rules: Rules, kept: tuple[str, ...]) -> Obstacle | None:
    people = len(rules.counts)
    high = [_caps(rules, i, kept) for i in range(people)]
    low = [[0] * people for _ in range(people)]
    table = [[0] * people for _ in range(people)]
    spare, lack = list(rules.counts), list(rules.counts)
    saturate(table, low, high, spare, lack)
    if not any(lack):
        return None
    takers = _cut(table, high, lack)
    most = [min(rules.counts[i], sum(high[i][j] for j in takers)) for i in range(people)]
    return Obstacle(
        kept=kept,
        takers=tuple(rules.makers[j] for j in takers),
        need=sum(rules.counts[j] for j in takers),
        reach=sum(most),
        givers=tuple((rules.makers[i], count) for i, count in enumerate(most) if count),
    )


def _caps(rules: Rules, i: int, kept: tuple[str, ...]) -> list[int]:
    caps = []
    for j, gets in enumerate(rules.counts):
        shut = (
            i == j
            or (i, j) in rules.met and MET in kept
            or (i, j) in rules.apart and APART in kept
        )
        most = min(rules.counts[i], gets)
        caps.append(0 if shut else min(1, most) if DOUBLE in kept else most)
    return caps


def _cut(table: Table, high: Table, lack: list[int]) -> list[int]:
    """The takers whose lack could be mended from where they are, going backwards."""
    people = len(lack)
    takers = [j for j in range(people) if lack[j]]
    seen_takers, seen_givers = set(takers), set()
    for j in takers:
        for i in range(people):
            if i in seen_givers or table[i][j] >= high[i][j]:
                continue
            seen_givers.add(i)
            fed = [k for k in range(people) if table[i][k] and k not in seen_takers]
            seen_takers.update(fed)
            takers += fed
    return sorted(takers)


def _listed(parts: list[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"
