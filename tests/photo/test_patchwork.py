"""A card of 5:7 whose art is a quilt or a comic: its fields look like cards, and it is one."""

from dataclasses import replace

import numpy as np
import pytest

from swapboard.photo.looking import Looks
from swapboard.photo.patchwork import with_patchwork
from swapboard.photo.refining import Refined
from swapboard.photo.seen_whole import Whole

CARD = (250.0, 350.0)


def box(x: float, y: float, wide: float, tall: float) -> np.ndarray:
    return np.array([[x, y], [x + wide, y], [x + wide, y + tall], [x, y + tall]])


def reading(quad: np.ndarray, sure: float = 0.99) -> Refined:
    return Refined(quad, sure, sure, 0.0, np.ones(4), 0.0, 0.2, 0.3)


def fields(across: int, down: int, size: tuple = CARD, inset: float = 0.0) -> list[Refined]:
    """What fills a thing of that size, so many across and down."""
    wide, tall = size[0] / across, size[1] / down
    return [reading(box(100 + x * wide + inset, 100 + y * tall + inset, wide - 2 * inset,
                        tall - 2 * inset)) for y in range(down) for x in range(across)]


class Seen(Looks):
    """Looks at a table on which fields were seen; the whole looks like a card, as sure as that."""

    def __init__(self, looked: list[Refined], sure: float = 0.99) -> None:
        self.size, self.looked, self.sure_of_it, self.asked = (900, 700), [*looked], sure, []

    def reading(self, quad):
        self.asked.append(quad)
        return replace(reading(quad, self.sure_of_it))


def is_told(looks: Seen) -> bool:
    wholes = with_patchwork([], looks, None)
    return any(whole.plain and whole.seen is one for whole in wholes for one in looks.looked)


@pytest.mark.parametrize("looked", [
    fields(3, 4), fields(2, 3), fields(1, 4), fields(3, 4, inset=3),
    fields(3, 4)[:-1], [*fields(3, 4), reading(box(500, 300, 250, 350))],
    [*fields(2, 3), reading(box(100, 100, 250, 40))],
], ids=["a quilt", "six fields", "a strip of four", "apart a little", "one not seen",
        "a card beside it", "a field seen twice"])
def test_fields_that_fill_a_card_are_its_art(looked):
    looks = Seen(looked)
    assert is_told(looks)
    assert len(looks.asked) == 1 and np.ptp(looks.asked[0], axis=0) == pytest.approx(CARD, abs=7)


@pytest.mark.parametrize("looked, sure", [
    (fields(3, 3), 0.99), (fields(2, 2), 0.99), (fields(3, 1), 0.99),
    (fields(3, 4, (350, 350)), 0.99), (fields(3, 4, inset=20), 0.99), (fields(3, 4), 0.9),
    (fields(2, 4, (400, 310)), 0.99),
], ids=["nine cards", "four cards", "three panels", "on a square", "apart", "unlike a card",
        "eight on a squarer sheet"])
def test_what_is_shaped_as_cards_or_lies_apart_is_none(looked, sure):
    assert not is_told(Seen(looked, sure))


def test_a_field_that_from_afar_is_one_is_none_then():
    looked = fields(3, 4)
    beside = Whole(reading(box(500, 300, 250, 350)), True)
    looks = Seen([*looked, beside.seen])
    wholes = with_patchwork([Whole(looked[5], True), beside], looks, None)
    assert [np.ptp(one.seen.quad, axis=0).tolist() for one in wholes] == [[250, 350], [250, 350]]
    assert wholes[0] is beside


def test_a_card_on_its_side_is_told_too():
    turned = [replace(one, quad=one.quad[:, ::-1][::-1].copy()) for one in fields(3, 4)]
    assert is_told(Seen(turned))
