"""Cards by the networks' eyes: proposed by vote, straightened, looked at, chosen.

Where that leaves a doubt, quadrilaterals found from edges and colours alone
are shown to the same network.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np

from swapboard.photo.cut_off import cut_off
from swapboard.photo.equals import equalised
from swapboard.photo.find import SMALLEST
from swapboard.photo.frames import beyond_frames
from swapboard.photo.geometry import (
    from_top_left,
    intersection_over_union,
    is_convex,
    overlap,
    side_lengths,
    signed_area,
)
from swapboard.photo.nearby import on_edges, out_of_frames
from swapboard.photo.networks import Networks
from swapboard.photo.pale import HELD, pale_cards, well_held
from swapboard.photo.panels import (
    SAY_SIZE,
    are_apart,
    are_halves,
    halves_of,
    halves_of_pairs,
    joined,
)
from swapboard.photo.plane import table_of
from swapboard.photo.readings import PERHAPS, SURE, card_like, choose, has_kin, is_sure
from swapboard.photo.refining import LastLook, Refined, last_look, refine
from swapboard.photo.rows import FEWEST, crossings
from swapboard.photo.second_look import ENOUGH, around, in_doubt, in_open_card, of_another_size
from swapboard.photo.shadows import out_of_shadows
from swapboard.photo.sides import Fit, fit_sides
from swapboard.photo.sleeves import out_of_sleeves
from swapboard.photo.surroundings import Surroundings, surroundings
from swapboard.photo.voting import Glances
from swapboard.photo.warps import Pyramid

LEAST_LOOSE = 0.5
LEAST_TIGHT = 0.1
"""What is less like a card than that is not answered, not even as doubtful."""

RESIZED = 0.93
"""Overlap over union below which the size of others has made another card of it."""

LEAST_DRAWN = 0.02
"""Spread of colours, 0–1, up to which a rectangle looks blank: the light alone does that much."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A card the networks found.

    `refined` is its last straightening; `quad` [4, 2] px from the card's own top left, after
    the fit to the photo's own pixels; `fit` that fit, None where it was not
    trusted; `rivals` the best `tight` among what was dropped in its favour but is not it;
    `kin` whether a likely card of the same size lies elsewhere in the picture; `around` what its
    surroundings say; `resized` whether it was given another size by far, for the others' sake;
    `paired` whether each half of it looks like a card.
    """

    refined: Refined
    quad: np.ndarray
    fit: Fit | None
    rivals: float
    kin: bool
    around: Surroundings
    resized: bool = False
    paired: bool = False


def see_cards(
    picture: np.ndarray, networks: Networks,
    second_look: Callable[[], tuple[list[np.ndarray], list[np.ndarray]]],
    focal: float | None = None,
) -> tuple[list[Seen], list[np.ndarray]]:
    """The cards in a picture, surest first; and those [4, 2] px that the frame cuts too far for it.

    `second_look` answers further proposals [4, 2] px, and such as count only where the network is
    sure of them; it takes longer and is asked only where its own leave a doubt; `focal` in px.
    """
    pyramid, size = Pyramid(picture), (picture.shape[1], picture.shape[0])
    looked: list[Refined] = []
    pale: list[Refined] = []
    lost: list[np.ndarray] = []

    def look(quads: Iterable[np.ndarray]) -> None:
        for quad in quads:
            if side_lengths(quad).min() < SMALLEST or _known(quad, looked):
                continue
            refined = refine(pyramid, size, quad, networks)
            if refined is not None and _able(refined, size):
                looked.append(refined)
                continue
            lost.append(quad)
            if refined is not None and well_held(refined, size):
                pale.append(refined)

    glances = Glances(picture, networks)
    look(glances.quads())
    unseen = list(lost)
    if not any(map(is_sure, looked)):
        look(glances.large_quads())
    parts = len(looked)
    look(joined([one.quad for one in looked]))
    looked = _without_parts(looked[:parts], looked[parts:])
    look(_halves(looked, size, focal))
    looked, pairs = _parted(looked, pyramid, size, networks)
    _ask_edges(looked, lost, pale, look, second_look)
    looked += _at_crossings(looked, pyramid, size, networks, focal)
    chosen = choose(looked)
    chosen += pale_cards(pale, [one for one, _ in chosen])
    seen = _seen_last(picture, pyramid, chosen, pairs, networks, glances, focal)
    return seen, cut_off(unseen, [one.quad for one in seen], size)


def _halves(
    looked: list[Refined], size: tuple[int, int], focal: float | None
) -> list[np.ndarray]:
    """Halves [4, 2] px of what is as large as two of the likely cards beside it."""
    cards = [one.quad for one, _ in choose(looked) if one.tight > PERHAPS and card_like(one.quad)]
    table = table_of(cards, *size, focal) if len(cards) >= SAY_SIZE else None
    return halves_of_pairs([one.quad for one in looked], cards, table)


def _ask_edges(
    looked: list[Refined], lost: list[np.ndarray], pale: list[Refined],
    look: Callable[[Iterable[np.ndarray]], None],
    second_look: Callable[[], tuple[list[np.ndarray], list[np.ndarray]]],
) -> None:
    """Where the networks' own proposals leave a doubt, have those of edges looked at too."""
    doubt = in_doubt(looked, lost)
    if not doubt and not of_another_size(looked):
        return
    likely, others = second_look()
    if doubt:
        look(quad for quad in likely if not in_open_card(quad, looked))
    found, faint = len(looked), len(pale)
    look(others)
    looked[found:] = around(looked[:found], looked[found:])
    del pale[faint:]


def _seen_last(
    picture: np.ndarray, pyramid: Pyramid, chosen: list[tuple[Refined, float]],
    pairs: list[np.ndarray], networks: Networks, glances: Glances, focal: float | None,
) -> list[Seen]:
    """Each card chosen, its sides looked at once more and held against the others'."""
    size = (picture.shape[1], picture.shape[0])

    def look(quad: np.ndarray) -> Refined | None:
        seen = refine(pyramid, size, quad, networks, rounds=2, least=LEAST_LOOSE)
        return seen if seen is not None and _able(seen, size) else None

    def glance(quad: np.ndarray) -> Refined | None:
        return refine(pyramid, size, quad, networks, rounds=1)

    cards = [on_edges(refined, picture, look) for refined, _ in chosen]
    cards = out_of_frames(cards, picture, look)
    cards = _beyond_frames(cards, pyramid, size, networks, focal)
    many = len(cards) > ENOUGH
    looks = [last_look(pyramid, size, refined, networks, many) for refined in cards]
    heard = [look.heard(refined) for look, refined in zip(looks, cards, strict=True)]
    equal = _with_equals(heard, looks, size, focal)
    quads = out_of_shadows(picture, out_of_sleeves(picture, equal, focal), heard, glance)
    likely = [one.tight > PERHAPS for one in heard]
    told = surroundings(pyramid, size, quads, likely, networks, glances)
    return [
        Seen(refined, *_finished(picture, quad), rivals, has_kin(refined, heard), about,
             intersection_over_union(last.quad, as_others) < RESIZED, _is_one_of(quad, pairs))
        for refined, (_, rivals), last, as_others, quad, about
        in zip(heard, chosen, looks, equal, quads, told, strict=True)
    ]


def _beyond_frames(
    cards: list[Refined], pyramid: Pyramid, size: tuple[int, int], networks: Networks,
    focal: float | None,
) -> list[Refined]:
    """Cards seen by a frame drawn in them at the size of the sure ones."""

    def look(quad: np.ndarray) -> Refined | None:
        seen = refine(pyramid, size, quad, networks, least=LEAST_LOOSE)
        return seen if seen is not None and _able(seen, size) and is_sure(seen) else None

    if len(cards) < 2:
        return cards
    table = table_of([card.quad for card in cards], *size, focal)
    return beyond_frames(cards, [is_sure(card) for card in cards], table, look)


def _parted(
    looked: list[Refined], pyramid: Pyramid, size: tuple[int, int], networks: Networks
) -> tuple[list[Refined], list[np.ndarray]]:
    """Where too few cards say how large one is: two that were taken for one, with a gap between;
    and the quads [4, 2] px of such as have none, but may be two all the same."""
    chosen = [one for one, _ in choose(looked)]
    pairs: list[np.ndarray] = []
    for whole in chosen if len(chosen) <= SAY_SIZE else []:
        halves = [refine(pyramid, size, half, networks, least=LEAST_LOOSE)
                  for half in halves_of(whole.quad)]
        sure = [half for half in halves if half is not None and _able(half, size) and is_sure(half)]
        if len(sure) < 2:
            continue
        if are_apart([half.quad for half in sure], whole.quad):
            looked = [one for one in looked
                      if intersection_over_union(one.quad, whole.quad) < RESIZED] + sure
        elif are_halves([half.quad for half in sure], whole.quad):
            pairs.append(whole.quad)
    return looked, pairs


def _is_one_of(quad: np.ndarray, others: list[np.ndarray]) -> bool:
    return any(intersection_over_union(quad, other) > RESIZED for other in others)


def _at_crossings(
    looked: list[Refined], pyramid: Pyramid, size: tuple[int, int], networks: Networks,
    focal: float | None,
) -> list[Refined]:
    """Sure cards where rows and columns of others cross, within the picture.

    Something must be drawn on them: the bare lid or table between others has a card's sides.
    """
    sure = np.array([one.quad for one, _ in choose(looked) if is_sure(one)])
    if len(sure) < FEWEST:
        return []
    within = [
        quad for quad in crossings(sure, table_of(sure, *size, focal))
        if quad.min() > -1 and (quad.max(axis=0) < np.array(size) + 1).all()
    ]
    found = [refine(pyramid, size, quad, networks, least=LEAST_LOOSE) for quad in within]
    return [
        one for one in found
        if one is not None and _able(one, size) and is_sure(one) and one.drawn > LEAST_DRAWN
    ]


def _with_equals(
    heard: list[Refined], looks: list[LastLook], size: tuple[int, int], focal: float | None,
) -> list[np.ndarray]:
    quads = [look.quad for look in looks]
    if len(quads) < 2:
        return quads
    sure = [is_sure(refined) for refined in heard]
    return equalised(looks, sure, table_of(quads, *size, focal))


def _known(quad: np.ndarray, looked: list[Refined]) -> bool:
    """Whether a sure card has been found where the proposal lies."""
    return any(
        one.tight > 0.9 and intersection_over_union(quad, one.quad) > 0.85 for one in looked)


def _able(refined: Refined, size: tuple[int, int]) -> bool:
    quad = refined.quad
    if not is_convex(quad) or side_lengths(quad).min() < SMALLEST:
        return False
    frame = np.array([[0, 0], [size[0], 0], size, [0, size[1]]], dtype=np.float64)
    seen = overlap(quad, frame) / max(abs(signed_area(quad)), 1)
    return seen > 0.3 and refined.loose >= LEAST_LOOSE and refined.tight >= LEAST_TIGHT


def _without_parts(parts: list[Refined], wholes: list[Refined]) -> list[Refined]:
    sure = [whole for whole in wholes if whole.tight > SURE]
    kept = [
        part for part in parts
        if all(overlap(part.quad, whole.quad) < 0.9 * signed_area(part.quad) for whole in sure)
    ]
    return kept + wholes


def _finished(picture: np.ndarray, quad: np.ndarray) -> tuple[np.ndarray, Fit | None]:
    """Sides moved onto the edges of the photo's own pixels, where that changes little, and how."""
    long = float(side_lengths(quad).max())
    reach = max(0.004 * long, 2.5)
    fit = fit_sides(picture, quad, (reach, max(reach / 2, 1.5), max(reach / 3, 1.5)))
    if fit is not None and _trusted(fit, quad, long):
        return from_top_left(fit.quad), fit
    return from_top_left(quad), None


def _trusted(fit: Fit, quad: np.ndarray, long: float) -> bool:
    """Whether edges lie all along where the network sees the sides: what it sees is right more
    often, where they lie elsewhere or only here and there."""
    moved = float(np.abs(fit.quad - quad).max())
    return moved < max(0.008 * long, 1.0) and float(fit.held.min()) > HELD
