"""Which of what the networks saw is told to the maker."""

from dataclasses import replace

import numpy as np

from swapboard.photo.find import Found
from swapboard.photo.finishing import Seen
from swapboard.photo.flatbed import is_scanned
from swapboard.photo.geometry import side_lengths, signed_area
from swapboard.photo.one_size import sharing_size
from swapboard.photo.panels import open_pair, share_edge
from swapboard.photo.plane import Lying, table_of
from swapboard.photo.rows import edge_to_edge
from swapboard.photo.sureness import MANY, SURE_ENOUGH, may_settle, sureness_of
from swapboard.photo.verdict import (
    LIKELY,
    PATCHED,
    TINY,
    TOUCHING,
    cut_by_frame,
    doubted,
    judge_cut_off,
    judge_open,
)
from swapboard.photo.voting import Glances
from swapboard.photo.warps import tall_first
from swapboard.photo.whole_frame import ALL, may_be_whole

LEAST, LEAST_BESIDE, LEAST_CUT = 0.01, 0.005, 0.0005
"""What is less likely a card is not told; beside a sure one less is asked, for that it has not its
size made it less likely, and least of what the frame cuts. (Of 2,008 photos by other hands what was
likely by 0.005 to 0.02 beside one or two were three cards, all of another size, in 13; of 132
scraps at the frame that were less likely than 0.0005 one was a card, of 43 up to 0.0015 nine.)"""

LEAST_AMONG_MANY = 0.25
"""Among many sure cards nobody goes without, and in a page the less likely ones are its empty
pockets. (In 735 photos by other hands what was likely by 0.25 to 0.3 were four cards; of what the
frame cuts in 502 of loose cards, five scraps and no card were by 0.1 to 0.25.)"""

PLAIN_FROM_AFAR = 0.95
"""So sure is the proposer of no empty pocket, nor of scraps at the frame. (Of 22 pockets that were
seen beside three sure cards of their size, in 2,365 pictures by other hands, it was surest of one
by 0.94; of scraps beside so many, in 1,524, by 0.92, and by 0.96 and 0.97 of two cards cut there.)
"""

LEAST_ALIKE, ALIKE, APART, SEEN = 0.03, 4, 0.075, 0.05
"""What is that likely, has the size of so many sure cards, is so far off in colour, 0–1, from what
is around it, and that likely for the witness, is no empty pocket: those look like what they lie on.
(In 1,524 pictures by other hands 15 such were cards; of the empty pockets that were as likely two
were farther off than 0.07, and neither more likely for the witness than 0.03.)"""

SMALL, AMONG = 0.12, {3: 0.09, 6: 0.05}
"""Of the picture's long side: a card no longer than that could be anything; and no longer than
that, where so many of one size and more lie apart. (Of 51 crops by other hands that were wrong
without a flag the first flags 13, and of 3,921 right ones 4; but of what later pictures had that
was doubtful for that alone all 69 were right, and 55 of them had three like them and more.)"""

PATCHES = 10
"""So many sure cards edge to edge are more than people lay out so: a quilt's patches look alike.
(In 1,815 pictures by other hands there were nine at most, but for a quilt of sixteen.)"""

FILLING = 4
"""So many that fill a picture of a card's proportion may be the fields of that card. (In
1,340 pictures by other hands of many cards, and of nothing but their card, one such was filled to
more than 0.9, and was one card of nine fields; of nine pushed together on glass 0.89 at most.)"""


def wants_agreement(seen: list[Seen], lying: list[Lying]) -> bool:
    """Whether some card is not sure, but a second way of looking could settle it."""
    return any(
        may_settle(one, how) and sureness_of(one, how) < SURE_ENOUGH
        for one, how in zip(seen, lying, strict=True))


def likely_enough(
    seen: list[Seen], found: list[Found], lying: list[Lying], size: tuple[int, int]
) -> list[tuple[Found, float]]:
    """Those worth telling of what was seen and judged, each with how likely it is a card.

    What the frame cuts is told however doubtful, unless next to nothing speaks for a card, for
    there the maker can do something; but beside many sure ones no scraps along the border, nor a
    page's empty pockets: only what from afar looks just like a card, and has the size of many or
    looks like a sheet from near; or has their size, but not the colour of what is around. While
    none is sure, their sizes say nothing of each other: of two cards of which one is half covered
    both are told.
    """
    shares = [sureness_of(one, how) for one, how in zip(seen, lying, strict=True)]
    sure = sum(share >= SURE_ENOUGH for share in shares)
    least = LEAST_AMONG_MANY if sure >= MANY else LEAST_BESIDE if sure else LEAST

    def is_told(one: Seen, how: Lying, card: Found, share: float) -> bool:
        from_afar = one.around.proposed > PLAIN_FROM_AFAR
        if (sure < MANY or from_afar) and cut_by_frame(np.array(card.corners), *size):
            return share >= LEAST_CUT
        if one.plain or (from_afar and how.alike >= MANY):
            return True
        if share >= LEAST_ALIKE and how.alike >= ALIKE and one.refined.apart > APART and (
                one.around.witnessed > SEEN):
            return True
        return (share if sure else sureness_of(one, replace(how, unlike=0.0))) >= least

    return [(card, share) for one, how, card, share in zip(seen, lying, found, shares, strict=True)
            if is_told(one, how, card, share)]


def cut_off_told(
    cut: list[np.ndarray], told: list[tuple[Found, float]]
) -> list[Found]:
    """What the frame cuts off [4, 2] px as cards, beside what else is told; many sure ones are what
    was photographed, and nothing beside them is. (In 1,320 pictures by other hands eight such lay
    beside so many, all of them scraps.)"""
    many = sum(share >= SURE_ENOUGH for _, share in told) >= MANY
    return [] if many else [judge_cut_off(quad) for quad in cut]


def with_open_pair(
    told: list[tuple[Found, float]], picture: np.ndarray, focal: float | None
) -> list[tuple[Found, float]]:
    """The same, but two halves that meet as the one card that lies open, first; on a scanner's
    glass as two cards that may be one."""
    quads = [np.array(card.corners) for card, _ in told]
    likely = [share >= LIKELY or not card.doubtful for card, share in told]
    opened = open_pair(quads, likely)
    if opened is None:
        return told
    one, other, corners = opened
    size = picture.shape[1], picture.shape[0]
    others = [quads[at] for at, (_, share) in enumerate(told)
              if at not in (one, other) and share >= LEAST_AMONG_MANY]
    if _is_in_block([quads[one], quads[other]], others, size):
        return told
    if is_scanned(picture, corners, (quads[one], quads[other])):
        return [(doubted(card, TOUCHING) if at in (one, other) else card, share)
                for at, (card, share) in enumerate(told)]
    whole = judge_open(corners, (told[one], told[other]), *size, focal)
    return [whole] + [card for at, card in enumerate(told) if at not in (one, other)]


def open_doubted(
    told: list[tuple[Found, float]], glances: Glances
) -> list[tuple[Found, float]]:
    """The same, but what lies open is doubtful where the proposer sees parts of it: two cards that
    touch may be told so too."""
    return [(doubted(card, TOUCHING) if not card.doubtful and card.kind == "folded open"
             and glances.is_parted(np.array(card.corners)) else card, share)
            for card, share in told]


def _is_in_block(
    pair: list[np.ndarray], others: list[np.ndarray], size: tuple[int, int]
) -> bool:
    """Whether one of the others [4, 2] px has the size of both of a pair, and meets one of them:
    then those are no halves."""
    return any(
        sharing_size([*pair, other], size).all()
        and any(share_edge(other, one) for one in pair)
        for other in others)


def small_doubted(
    told: list[tuple[Found, float]], size: tuple[int, int], focal: float | None = None
) -> list[tuple[Found, float]]:
    """The same, but what is small in a picture of `size` (w, h) px is doubtful, and the less so
    among others of its size: unless they touch as patches do."""
    quads = [np.array(card.corners) for card, _ in told]
    sure = [at for at, (_, share) in enumerate(told) if share >= SURE_ENOUGH]
    known = [tall_first(quads[at]) for at in sure]
    touch = bool(sure) and edge_to_edge(np.array(known), table_of(known, *size, focal))
    counts = sharing_size(known, size, focal).sum(axis=1)
    alike = {} if touch else dict(zip(sure, counts, strict=True))

    def is_small(at: int) -> bool:
        least = min([SMALL, *(less for count, less in AMONG.items() if alike.get(at, 0) >= count)])
        return float(side_lengths(quads[at]).max()) < least * max(size)

    return [(doubted(card, TINY) if is_small(at) else card, share)
            for at, (card, share) in enumerate(told)]


def patches_doubted(
    told: list[tuple[Found, float]], size: tuple[int, int]
) -> list[tuple[Found, float]]:
    """The same, but where a great many meet edge to edge, or some that fill a picture of a card's
    proportion, they are doubtful."""
    sure = [tall_first(np.array(card.corners)) for card, _ in told if not card.doubtful]
    patches = len(sure) >= PATCHES and edge_to_edge(np.array(sure), table_of(sure, *size))
    if not patches and not _fill_a_card([np.array(card.corners) for card, _ in told], size):
        return told
    return [(card if card.doubtful else doubted(card, PATCHED), share) for card, share in told]


def _fill_a_card(quads: list[np.ndarray], size: tuple[int, int]) -> bool:
    covered = sum(abs(signed_area(quad)) for quad in quads) / (size[0] * size[1])
    return may_be_whole(*size) and len(quads) >= FILLING and covered > ALL
