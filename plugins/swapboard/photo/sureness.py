"""How likely what was seen is a card, from all that was measured of it."""

from dataclasses import replace
from math import log

import numpy as np

from swapboard.photo.finishing import Seen
from swapboard.photo.looking import LEAST_DRAWN
from swapboard.photo.one_size import sharing_size
from swapboard.photo.plane import Lying, on_table
from swapboard.photo.rating import CARD_PROPORTION
from swapboard.photo.readings import PERHAPS
from swapboard.photo.refining import log_odds

WEIGHED = (
    -6.87, 1.62, -0.24, -0.23, 1.12, -0.18, 0.23, -0.04, -0.28, -1.16, 0.82, 1.75, 1.0, 3.5)
"""Of the evidence: a constant, then one weight for each (logistic regression, ridge 1). Fitted on
some 2,600 crops of hard scenes held aside from training; but for the last three, what surrounds the
card, and the constant: those were set on 1,650 pictures by other hands."""

DIM, CLEAR = 0.05, 0.98
"""How sure the proposer is of what it overlooks, and of what it sees well: less and more say no
more."""

DOUBTED, ATTESTED = 0.02, 0.99
"""The same of the witness."""

LIKE, UNLIKE = 0.25, 1.6
"""How unlike a bare place is what is one, and what cannot be: less and more say no more."""

ALIKE = 0.04
"""A difference in area, as a logarithm, that cards of one size may show in a photo."""

SURE_ENOUGH = 0.9
"""Below it a card the networks found is doubtful. Of 4,497 crops of scenes by other hands 0.3 % are
wrong without a flag, 4.5 % of the right ones flagged, for it, their size or the frame."""

AGREEABLE, AGREEABLE_CARD = 0.8, 0.1
"""From this share of sureness on a second way of looking that agrees settles it; sooner what has a
card's own proportion. Of 76 such crops of scenes by other hands 5 were no cards."""

MANY, BORNE_OUT = 3, 0.25
"""So many sure cards of its size bear out what by itself is as likely as that. (In 2,365 pictures
by other hands so were 73 crops that were right, and one that was wrong.)"""

GRAIN = 0.004
"""Differences of colours, 0–1, that a photo's grain makes by itself: less says no less."""

BLANK_TO = 0.004
"""Spread of colours on a lone rectangle up to which it may be any slip of paper, however clear its
sides."""

EXACT = 0.02
"""How far, relatively, a card's own proportion is off 7:5."""


def sureness_of(seen: Seen, lying: Lying) -> float:
    """How likely what was seen is a card and tight, 0–1, leaving aside what is amiss with it."""
    share = sureness(evidence(seen, lying))
    if lying.alike >= MANY and share >= BORNE_OUT:
        return max(share, SURE_ENOUGH)
    return share


def lying_of(seen: list[Seen], width: int, height: int, focal: float | None) -> list[Lying]:
    """How each card lies on the table of a picture w × h px, beside the likely and the sure ones;
    `focal` in px where known."""
    likely = [one.refined.tight > PERHAPS for one in seen]
    lying = on_table([one.quad for one in seen], likely, width, height, focal)
    return beside_sure(seen, lying, (width, height), focal)


def beside_sure(
    seen: list[Seen], lying: list[Lying], size: tuple[int, int], focal: float | None = None
) -> list[Lying]:
    """The same, told how many of the sure ones have each one's size, in a picture of `size` px."""
    sure = np.array([sureness_of(*one) >= SURE_ENOUGH for one in zip(seen, lying, strict=True)])
    if sure.sum() < MANY:
        return lying
    alike = sharing_size([one.quad for one in seen], size, focal)
    np.fill_diagonal(alike, False)
    counts = alike[:, sure].sum(axis=1)
    return [replace(how, alike=int(count)) for how, count in zip(lying, counts, strict=True)]


def sureness(told: np.ndarray) -> float:
    """0–1, a logistic curve over the evidence (`WEIGHED`)."""
    return float(1 / (1 + np.exp(-(told @ np.array(WEIGHED[1:]) + WEIGHED[0]))))


def may_settle(seen: Seen, lying: Lying) -> bool:
    """Whether a second way of looking that comes to the same makes a sure card of it."""
    exact = abs(log(lying.proportion / CARD_PROPORTION)) <= EXACT
    bare = seen.refined.drawn < LEAST_DRAWN
    return sureness_of(seen, lying) >= (AGREEABLE_CARD if exact and not bare else AGREEABLE)


def evidence(seen: Seen, lying: Lying) -> np.ndarray:
    """What tells right from wrong, float64 [13], each about -3 to 3."""
    refined, around = seen.refined, seen.around
    off = min(abs(log(lying.proportion / CARD_PROPORTION)), 0.3)
    off_size = min(max(lying.unlike - ALIKE, 0), 0.3)
    return np.array([
        _odds(refined.tight), _odds(refined.loose), _odds(refined.hidden),
        4 * (float(refined.held.min()) - 0.6), _odds(seen.rivals),
        log(max(refined.drawn, GRAIN) / 0.05), log(max(refined.apart, GRAIN) / 0.05), 10 * off,
        10 * off_size, float(seen.kin), _odds(min(max(around.proposed, DIM), CLEAR)),
        _odds(min(max(around.witnessed, DOUBTED), ATTESTED)),
        log(min(max(around.unlike, LIKE), UNLIKE) / UNLIKE),
    ])


def _odds(share: float) -> float:
    return float(log_odds(share)) / 2
