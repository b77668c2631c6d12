"""Proposals as data for programs and as text for people.

The data, `"version": 1`:

    {"version": 1, "rings": 3, "moved": 213, "bound": 213, "proven": true,
     "swaps": [{"parcels": [{"from": MAKER, "to": MAKER, "cards": [CARD, …],
                             "wants": [SENTENCE, …]}, …]}, …],
     "late": false,
     "levels": [{"name", "goal", "value", "bound", "proven"}, …]}

Names are those of files, without `.md`. Nothing can move more than `bound` cards;
`proven` says that `moved` is the best there is. Cards at one place of a swap's
parcels go for each other, and `wants` has the sentence that each of them fills.
`late` says that the clock cut the search short: another run may find something else.
`levels` has the whole objective in its order; a level's `bound` is null where
nothing is known, its `proven` true only where every level before is proven too.
"""

from swapboard.matching.types import Level, Proposals, Swap

VERSION = 1
LATE = "The time ran out before the search was done: another run may find other swaps."


def as_data(proposals: Proposals) -> dict:
    """The proposals as JSON has them."""
    first = proposals.levels[0]
    return {
        "version": VERSION,
        "rings": proposals.rings,
        "moved": proposals.moved,
        "bound": first.bound,
        "proven": first.proven,
        "late": proposals.late,
        "swaps": [{"parcels": _parcels(swap)} for swap in proposals.swaps],
        "levels": [
            {
                "name": level.name, "goal": level.goal, "value": level.value,
                "bound": level.bound, "proven": level.proven,
            }
            for level in proposals.levels
        ],
    }


def as_text(proposals: Proposals) -> str:
    """The proposals to be read: each swap with its cards and why they suit, then how
    good they are together."""
    lines: list[str] = []
    for swap in proposals.swaps:
        lines += [*_swap_lines(swap), ""]
    lines += [_level_line(level) for level in proposals.levels]
    if proposals.late:
        lines.append(LATE)
    return "\n".join(lines) + "\n"


def verdict(level: Level) -> tuple[str, str]:
    """What is known of a level: a code, and the figure that goes with it.

    "proven" has none; "within" has a share of the best possible in percent, rounded up,
    so that no more is claimed than is known; "at least" has the bound of what is to be
    few; "unknown" has none.
    """
    if level.proven or (level.goal == "most" and level.bound == 0):
        return "proven", ""
    if level.bound is None:
        return "unknown", ""
    if level.goal == "fewest":
        return "at least", str(level.bound)
    gap = 100 * (level.bound - level.value) / level.bound
    return "within", f"{max(1, -int(-gap * 10 // 1)) / 10:.1f}"


def how_good(level: Level) -> str:
    """What is known of a level in words: "best" only with its proof."""
    code, figure = verdict(level)
    return {
        "proven": "proven best",
        "unknown": "not compared with the best possible",
        "at least": f"the best possible is at least {figure}",
        "within": f"within {figure} % of the best possible",
    }[code]


def _parcels(swap: Swap) -> list[dict]:
    return [
        {
            "from": parcel.giver,
            "to": parcel.taker,
            "cards": list(parcel.cards),
            "wants": [move.want.text for move in parcel.moves],
        }
        for parcel in swap.parcels
    ]


def _swap_lines(swap: Swap) -> list[str]:
    between = " and " if len(swap.makers) == 2 else " → "
    head = between.join(swap.makers) + ("" if len(swap.makers) == 2 else f" → {swap.makers[0]}")
    lines = [f"{head}, {swap.count} for {swap.count}"]
    for parcel in swap.parcels:
        for move in parcel.moves:
            lines.append(f"    {move.giver} mails {move.card} to {move.taker}: {move.want.text}")
    return lines


def _level_line(level: Level) -> str:
    return f"{level.name}: {level.value}, {how_good(level)}"
