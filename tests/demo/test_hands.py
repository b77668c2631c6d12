"""The hands of the studio: each marks a card in its own way, from a cartoon or by itself."""

import numpy as np
import pytest

from studio.cartoon import Cartoon, brightness, piece, rounding
from studio.hands.alcohol_ink import AlcoholInk
from studio.hands.coloured_pencil import coloured
from studio.hands.cross_stitch import CELL, commonest, crossed
from studio.hands.cut_paper import CutPaper
from studio.hands.cyanotype import Cyanotype
from studio.hands.etching import etched
from studio.hands.felt import sewn
from studio.hands.gel_plate import GelPlate
from studio.hands.impasto import painted
from studio.hands.rubber_stamp import StampedCard
from studio.hands.scratchboard import scratched
from studio.hands.screenprint import halftone, screenprinted
from studio.hands.soft_pastel import pastelled
from studio.line import box, ellipse
from studio.sheet import filled

SIZE = (260, 364)
MIDDLE = (slice(150, 210), slice(100, 160))


def disc() -> Cartoon:
    """A dark red disc in the middle of a small pale card."""
    art = Cartoon(SIZE, "#f4efe2")
    art.add("#8a1f1a", ellipse(130, 182, 70, 70), shade=0.4)
    return art


FROM_CARTOONS = {
    "coloured pencil": coloured,
    "cross stitch": crossed,
    "etching": lambda art, seed: etched(art.study(), seed),
    "felt": sewn,
    "oil": painted,
    "screenprint": screenprinted,
    "scratchboard": lambda art, seed: 1 - scratched(art, seed),
    "soft pastel": lambda art, seed: pastelled(art, seed, "#e8e2d4"),
}


@pytest.mark.parametrize("hand", sorted(FROM_CARTOONS))
def test_a_hand_puts_the_disc_where_the_cartoon_has_it(hand):
    """The disc differs from what is beside it, and every value is a colour."""
    drawn = FROM_CARTOONS[hand](disc(), 3)
    assert drawn.shape == (SIZE[1], SIZE[0], 3)
    assert np.isfinite(drawn).all() and drawn.min() >= 0 and drawn.max() <= 1
    inside, beside = drawn[MIDDLE].mean((0, 1)), drawn[70:100, 60:200].mean((0, 1))
    assert np.abs(inside - beside).max() > 0.05


@pytest.mark.parametrize("hand", sorted(FROM_CARTOONS))
def test_a_hand_depends_on_its_seed_alone(hand):
    """The same seed gives the same card, another seed another."""
    first = FROM_CARTOONS[hand](disc(), 3)
    assert np.array_equal(first, FROM_CARTOONS[hand](disc(), 3))
    assert not np.array_equal(first, FROM_CARTOONS[hand](disc(), 4))


def test_no_two_hands_draw_the_same_disc():
    """Any two hands differ clearly in what they make of one cartoon."""
    drawn = [make(disc(), 3) for _, make in sorted(FROM_CARTOONS.items())]
    for number, one in enumerate(drawn):
        for other in drawn[:number]:
            assert np.abs(one - other).mean() > 0.02


def test_a_mirrored_motif_is_its_own_mirror_image():
    """A motif placed in the middle and mirrored covers the mirrored place."""
    motif = [piece("#000000", [(0, 0), (60, 10), (20, 80)])]
    plain, mirrored = Cartoon(SIZE, "#ffffff"), Cartoon(SIZE, "#ffffff")
    plain.place(motif, 130, 150, 1.2)
    mirrored.place(motif, 130, 150, 1.2, flip=True)
    assert np.abs(plain.flat() - mirrored.flat()[:, ::-1]).mean() < 0.002


def test_the_piece_in_front_is_the_one_that_shows():
    """Labels name the colour of the last piece laid at a place."""
    art = Cartoon(SIZE, "#ffffff")
    art.add("#ff0000", box(20, 20, 200, 200))
    art.add("#0000ff", box(60, 60, 120, 120))
    plate, tints = art.labels()
    assert [tints[plate[y, x]] for x, y in ((5, 5), (40, 40), (90, 90))] == [
        "#ffffff", "#ff0000", "#0000ff"]


def test_a_round_shape_is_lit_from_the_upper_left():
    """Rounding is below 0 towards the light and above 0 away from it, and 0 outside."""
    mask = filled(SIZE, ellipse(130, 182, 70, 70))
    form = rounding(mask)
    assert form[135, 85] < -0.05 and form[230, 175] > 0.05
    assert not form[mask == 0].any()


def test_brightness_is_that_of_the_television_standard():
    """White is 1, black 0, and pure green 0.587 (luma weights of ITU-R BT.601)."""
    assert brightness("#ffffff") == pytest.approx(1)
    assert brightness("#000000") == 0
    assert brightness("#00ff00") == pytest.approx(0.587)


@pytest.mark.parametrize("share", [0.2, 0.5, 0.8])
def test_halftone_dots_cover_as_much_as_they_should(share):
    """An even halftone covers about the share of paper that it was asked for."""
    dots = halftone(np.ones((390, 390), np.float32), share, share)
    assert dots.mean() == pytest.approx(share, abs=0.16)
    assert halftone(np.ones((390, 390), np.float32), share + 0.1, share + 0.1).mean() > dots.mean()


def test_a_square_of_cross_stitch_takes_its_commonest_colour():
    """Three quarters of a square win it; a tie goes to the lower number."""
    plate = np.zeros((CELL, 2 * CELL), np.int32)
    plate[:, :3 * CELL // 4] = 1
    plate[:, CELL:CELL + CELL // 2] = 2
    assert commonest(plate, 2, 1, 3).tolist() == [[1, 0]]


def test_the_sun_turns_a_cyanotype_blue_but_under_what_lies_on_it():
    """A disc on the sheet stays pale, the coated paper beside it turns blue."""
    art = Cyanotype(SIZE, 2)
    art.lay([piece("x", ellipse(130, 182, 50, 50))])
    sheet = art.washed()
    assert sheet[MIDDLE].mean() > 0.7
    red, _, blue = sheet[95:115, 90:170].mean((0, 1))
    assert blue - red > 0.2


def test_what_is_carved_from_a_stamp_does_not_print():
    """Ink is where the rubber stands and not where it was cut away."""
    card = StampedCard(SIZE, 1, "#ffffff")
    card.press([piece("ink", ellipse(0, 0, 80, 80)), piece("carve", ellipse(0, 0, 30, 30))],
               "#1f2f6a", 130, 182)
    assert card.sheet[177:187, 125:135].mean() > 0.85
    assert card.sheet[177:187, 70:85].mean() < 0.6


def test_a_tier_of_paper_throws_its_shadow_down_and_to_the_right():
    """Just beyond the lower right edge it is darker than beyond the upper left one."""
    art = CutPaper(SIZE, 5, "#e8e0d0")
    art.tier("#405060", box(90, 120, 170, 240))
    assert art.sheet[244:250, 120:160].mean() < art.sheet[110:116, 120:160].mean() - 0.08


def test_a_gel_plate_prints_only_where_its_mask_lets_it():
    """A layer with a leaf as mask leaves the paper about the leaf alone."""
    art = GelPlate(SIZE, 7)
    before = art.sheet.copy()
    leaf = filled(SIZE, ellipse(130, 182, 60, 40))
    art.pull("#2f6f86", leaf)
    changed = np.abs(art.sheet - before).max(2)
    assert changed[leaf == 0].max() == 0 and changed[leaf == 1].mean() > 0.2


def test_alcohol_ink_dries_darkest_at_its_edge():
    """The rim of a pool is darker than its middle."""
    art = AlcoholInk(SIZE, 4)
    art.pool("#3a5fa8", filled(SIZE, ellipse(130, 182, 110, 140)), run=20.0)
    shade = art.sheet.mean(2)
    assert shade.min() < shade[170:195, 118:142].mean() - 0.1
