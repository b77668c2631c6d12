"""Which of several readings of one place is the card, and when a picture is nothing but one."""

from dataclasses import replace

import numpy as np
import pytest

from swapboard.photo.readings import choose, of_usual_size
from swapboard.photo.refining import LastLook, Refined
from swapboard.photo.whole_frame import (
    Within,
    is_narrower,
    is_whole_card,
    may_be_whole,
    stands_out,
    trimmed,
)


def box(x: float, y: float, width: float, height: float) -> np.ndarray:
    return np.array([[x, y], [x + width, y], [x + width, y + height], [x, y + height]], float)


def reading(quad: np.ndarray, tight: float = 0.99) -> Refined:
    return Refined(quad, tight, 0.99, 0.0, np.ones(4), 0.0, 0.2, 0.3)


def chosen(*readings: Refined) -> list[list[float]]:
    return sorted(one.quad[0].tolist() for one, _ in choose(list(readings)))


def test_the_frame_drawn_in_a_wide_card_is_not_the_card():
    """Of two sure readings, one in the other, the outer one is the card, of whatever proportion."""
    outer, frame = reading(box(0, 0, 300, 600), 0.98), reading(box(20, 20, 260, 364))
    ((one, rival),) = choose([frame, outer])
    assert one is outer and rival == pytest.approx(0.99)


@pytest.mark.parametrize("tight, inner", [(0.91, True), (0.93, False)])
def test_what_is_far_clearer_than_the_card_about_it_is_no_frame_of_it(tight, inner):
    """A rectangle of which a covered sheet and the card on it make another, less clear one."""
    outer, card = reading(box(0, 0, 300, 420), tight), reading(box(20, 20, 250, 350), 0.999)
    assert chosen(outer, card) == ([[20, 20]] if inner else [[0, 0]])


@pytest.mark.parametrize("count, block", [(4, True), (3, False)])
def test_more_cards_of_one_size_than_an_open_one_has_panels_are_a_block(count, block):
    """Of eight, four of them seen for sure; three are the panels of one card that lies open."""
    whole = reading(box(0, 0, 1000, 450))
    cards = [reading(box(250 * (at % 4), 225 * (at // 4), 160, 224), 0.98) for at in range(count)]
    assert (chosen(whole, *cards) == [[0, 0]]) is not block


def test_two_cards_side_by_side_are_not_one_lying_open():
    """Several sure readings that fill an outer one are the cards."""
    pair = reading(box(0, 0, 500, 350), 0.97)
    left, right = reading(box(0, 0, 250, 350)), reading(box(250, 0, 250, 350))
    assert chosen(pair, left, right) == [[0, 0], [250, 0]]


@pytest.mark.parametrize("hidden, there", [(0.9, True), (0.1, False)])
def test_what_is_clear_to_see_on_a_covered_card_is_no_frame_of_it(hidden, there):
    """A pale card beside another, taken for one that lies under that."""
    covered = replace(reading(box(0, 0, 280, 400)), hidden=hidden)
    assert chosen(covered, reading(box(10, 10, 140, 380))) == ([[10, 10]] if there else [[0, 0]])


@pytest.mark.parametrize("border, outer", [(20, True), (3, False)])
def test_of_cards_framed_alike_the_frames_are_no_cards(border, outer):
    """Each has its like, as each card has; a pocket is hardly larger than its card, and may look
    like one: then it is told by how sure each is."""
    places = [box(300 * at, 0, 250, 350) for at in range(2)]
    frames = [reading(box(300 * at + border, border, 250 - 2 * border, 350 - 2 * border), 0.995)
              for at in range(2)]
    first = [0, 0] if outer else [border, border]
    assert chosen(*map(reading, places), *frames) == [first, [300 + first[0], first[1]]]


@pytest.mark.parametrize("sheet, there", [(0.62, True), (0.95, False)])
def test_an_open_card_on_what_may_be_a_sheet_is_no_patch_of_it(sheet, there):
    """A cutting mat looks a little like a card, and has the proportion of one; what surely looks
    like a card about it is that."""
    mat, card = reading(box(0, 0, 640, 900), sheet), reading(box(60, 60, 260, 740))
    assert chosen(mat, card) == ([[60, 60]] if there else [[0, 0]])


@pytest.mark.parametrize("wide, there", [(60, False), (230, True)])
def test_a_speck_on_what_may_be_a_steeply_tilted_card_is_its_art(wide, there):
    """Tilted by 35° towards its long side a card looks 1.15 as long as wide (the cosine of that
    tilt); a strip in its art looks like an open card, but none is a hundredth of its sheet."""
    card = reading(box(0, 0, 800, 960), 0.87)
    strip = reading(box(300, 300, wide, wide * 2.2), 0.97)
    assert chosen(card, strip) == ([[300, 300]] if there else [[0, 0]])


def test_what_several_cards_fill_is_no_rival_of_theirs():
    """Two pushed together look like one as well; a card that is but half of that has a rival."""
    pair = reading(box(0, 0, 500, 350), 0.97)
    left, right = reading(box(0, 0, 250, 350)), reading(box(250, 0, 250, 350))
    assert [rival for _, rival in choose([pair, left, right])] == [0.0, 0.0]
    longer = reading(box(0, 0, 390, 350), 0.95)
    ((_, rival),) = choose([left, longer])
    assert rival > 0.9


def test_pairs_as_large_as_each_other_are_pairs_where_single_cards_lie_by():
    """Each pair has its like, as cards have; but what fills it has its like beyond it."""
    singles = [reading(box(260 * x, 360 * y, 250, 350)) for x in range(3) for y in range(2)]
    pairs = [reading(box(260 * x, 360 * y, 510, 350), 0.999) for x, y in ((0, 0), (1, 1))]
    assert chosen(*pairs, *singles) == sorted(one.quad[0].tolist() for one in singles)
    assert chosen(*pairs, *singles[:1]) == sorted(one.quad[0].tolist() for one in pairs)


@pytest.mark.parametrize("patches, there", [(12, False), (4, True)])
def test_patches_of_a_quilt_seen_as_one_are_patches_too(patches, there):
    """Two by three of many lie as a card would, and may look likelier than the card that they are
    drawn on; among few small things what is larger may be a card on a sheet."""
    whole = reading(box(0, 0, 700, 980), 0.98)
    each = [reading(box(120 * (at % 4), 120 * (at // 4), 115, 115)) for at in range(patches)]
    block = reading(box(240, 500, 235, 355), 0.999)
    assert ([240, 500] in chosen(whole, *each, block)) is there


def test_pairs_of_cards_seen_at_a_slant_are_pairs_too():
    """Tilted away a card looks shorter than any deck's; it surely is one all the same."""
    singles = [reading(box(270 * x, 310 * y, 250, 300)) for x in range(3) for y in range(2)]
    pairs = [reading(box(270 * x, 310 * y, 520, 300), 0.999) for x, y in ((0, 0), (1, 1))]
    assert chosen(*pairs, *singles) == sorted(one.quad[0].tolist() for one in singles)


def test_what_lies_across_cards_with_kin_beyond_it_is_no_open_card():
    """Two of a page's cards and the bare place between them, as long as an open card; its one
    panel and a picture in it are not the card."""
    across = reading(box(0, 0, 250, 700), 0.97)
    on_it, beyond = reading(box(20, 20, 200, 280)), reading(box(400, 20, 200, 280))
    assert chosen(across, on_it, beyond) == [[20, 20], [400, 20]]
    assert chosen(across, on_it) == [[0, 0]]


def test_panels_that_lap_over_each_other_are_parts_of_one_card():
    """Where the fold was seen twice, each time not quite in its place, the whole is sure too."""
    whole = reading(box(0, 0, 350, 500), 0.97)
    upper, lower = reading(box(0, 0, 350, 270)), reading(box(0, 240, 350, 260))
    ((one, _),) = choose([upper, lower, whole])
    assert one is whole


@pytest.mark.parametrize("wide, tall, usual", [
    (250, 350, True), (250, 375, True), (750, 350, True), (700, 250, True), (1050, 250, True),
    (300, 300, False), (250, 420, False), (250, 620, False), (200, 700, False)])
def test_usual_sizes_are_a_card_and_two_or_three_panels(wide, tall, usual):
    """2.5 × 3.5 in; 7.5 × 3.5, 7 × 2.5 and 10.5 × 2.5 in open."""
    assert of_usual_size(box(0, 0, wide, tall)) == usual


def test_a_pocket_around_a_card_of_the_others_size_loses():
    """A reading like cards elsewhere in the picture stands against a larger one around it."""
    others = [reading(box(x, 0, 250, 350)) for x in (400, 800)]
    card, pocket = reading(box(0, 0, 250, 350), 0.96), reading(box(-20, -15, 290, 480), 0.97)
    assert [0, 0] in chosen(card, pocket, *others)


def test_a_long_open_card_is_not_lost_to_the_pictures_drawn_in_it():
    """Three panels end to end are one card, though figures in them are alike in size."""
    strip = reading(box(0, 0, 1050, 250), 0.97)
    figures = [reading(box(x, 60, 90, 126), 0.99) for x in (100, 480, 860)]
    assert chosen(strip, *figures) == [[0, 0]]


def test_two_cards_on_a_sheet_are_not_lost_to_it():
    """A sheet of card's proportion is no card where two of one size lie on it."""
    sheet = reading(box(0, 0, 1000, 1400), 0.97)
    cards = [reading(box(x, 300, 250, 350)) for x in (100, 600)]
    assert [100, 300] in chosen(sheet, *cards) and [0, 0] not in chosen(sheet, *cards)


def test_patches_of_no_cards_shape_are_the_art_of_the_card_about_them():
    """A quilt of squares, each as like a card as can be, on a card that is less sure of itself."""
    quilt = reading(box(0, 0, 250, 350), 0.7)
    patches = [reading(box(x, y, 60, 62)) for x in (10, 90, 170) for y in (20, 120, 220)]
    assert chosen(quilt, *patches) == [[0, 0]]
    cards = [reading(box(x, y, 60, 84)) for x in (10, 90, 170) for y in (20, 120, 220)]
    assert [0, 0] not in chosen(quilt, *cards)


def test_small_patches_of_any_shape_are_the_art_of_a_likely_card():
    """Also where a tilt makes the card longer than any, and glare seems to lie over it; unless
    their like lies beside it: then it is a sheet that they lie on."""
    card = replace(reading(box(0, 0, 600, 1060), 0.96), hidden=0.6)
    patches = [reading(box(x, 40, 100, 140)) for x in (20, 150, 280, 420)]
    assert chosen(card, *patches) == [[0, 0]]
    beyond = reading(box(800, 0, 100, 140))
    assert [0, 0] not in chosen(card, *patches, beyond)
    larger = [reading(box(x, 40, 180, 252)) for x in (20, 300)]
    assert [0, 0] not in chosen(card, *larger)


def test_a_panel_does_not_yield_to_itself_and_some_of_its_neighbour():
    """What looks like an open card with something over half of it is not one."""
    upper, lower = reading(box(0, 0, 250, 350), 0.96), reading(box(0, 350, 250, 350), 0.96)
    more = replace(reading(box(0, 190, 250, 520), 0.97), hidden=0.9)
    assert chosen(upper, lower, more) == [[0, 0], [0, 350]]
    assert chosen(upper, lower, replace(more, hidden=0.0)) != [[0, 0], [0, 350]]


def test_cards_that_look_short_are_not_the_art_of_a_guess_about_them():
    """Seen at a tilt, in what is hardly a card: their like lies elsewhere, or they are large."""
    guess = reading(box(0, 0, 1000, 700), 0.67)
    small = [reading(box(x, 0, 250, 295)) for x in (0, 260, 1400)]
    assert chosen(guess, *small) == [[0, 0], [260, 0], [1400, 0]]
    assert chosen(guess, *small[:2]) == [[0, 0]]
    halves = [reading(box(x, 0, 490, 600)) for x in (0, 500)]
    assert chosen(guess, *halves) == [[0, 0], [500, 0]]


def test_what_is_whole_wins_over_what_seems_covered():
    """A guess beyond the frame is as tight as the card, but something would have to lie over it."""
    card = reading(box(0, 0, 250, 350), 0.8)
    guess = replace(reading(box(0, 0, 250, 420), 0.86), hidden=0.98)
    ((one, _),) = choose([card, guess])
    assert one is card


def test_the_order_of_readings_changes_nothing():
    """The same readings give the same cards, whichever was found first."""
    readings = [reading(box(0, 0, 300, 600), 0.98), reading(box(20, 20, 260, 364)),
                reading(box(500, 0, 250, 350)), reading(box(505, 3, 240, 341), 0.95)]
    assert chosen(*readings) == chosen(*readings[::-1])


@pytest.mark.parametrize("size, inner, whole", [
    ((1500, 1071), [], True),
    ((1071, 1500), [Within(box(60, 60, 951, 1380), 1.45)], True),
    ((2480, 3508), [Within(box(300, 400, 750, 1050), 1.4)], False),
    ((2480, 3508), [Within(box(300, 400, 750, 1050), 1.4),
                    Within(box(1300, 400, 750, 1050), 1.4)], False),
    ((1000, 1375), [], True),
    ((1000, 1375), [Within(box(200, 300, 600, 300), 2.0)], False),
    ((1200, 900), [], False),
    ((1100, 513), [], True),
    ((1400, 500), [], True),
    ((1100, 513), [Within(box(60, 60, 250, 350), 1.4)], False),
    ((1100, 513), [Within(box(60, 60, 110, 154), 1.4)], True),
    ((2340, 1080), [], False),
    ((2400, 1080), [], False),
])
def test_a_picture_of_a_cards_shape_is_the_card_unless_cards_lie_in_it(size, inner, whole):
    """7:5 tells, but a sheet of the A series (1.414, ISO 216) with cards on it is a scan."""
    assert is_whole_card(*size, inner) is whole


def test_something_large_in_a_whole_card_leaves_a_doubt():
    """A sure rectangle of another proportion within is told; a frame all round is not."""
    assert stands_out(1000, 1400, [Within(box(200, 300, 600, 300), 2.0)])
    assert not stands_out(1000, 1400, [Within(box(60, 70, 880, 1260), 1.43)])


def test_a_card_whose_own_sides_fill_the_picture_is_one_whatever_is_drawn_on_it():
    """A card of collage, cropped by hand to 1.43: a piece of paper of a card's shape in its art."""
    collage = [Within(box(200, 500, 500, 700), 1.4)]
    assert not is_whole_card(1000, 1430, collage)
    assert is_whole_card(1000, 1430, collage, filled=0.95)
    assert not is_whole_card(1000, 1430, [*collage, Within(box(100, 60, 250, 350), 1.4)], 0.95)


@pytest.mark.parametrize("size, may", [
    ((3000, 4000), False), ((3000, 4500), False), ((2250, 4000), False), ((2550, 3300), False),
    ((1000, 1360), True), ((1000, 1400), True), ((1414, 1000), True), ((1000, 1460), True),
])
def test_no_camera_has_the_proportions_of_cropped_cards(size, may):
    """4:3, 3:2 and 16:9 are cameras' and 11:8.5 is US letter paper (common practice, no source)."""
    assert may_be_whole(*size) is may


def test_a_sliver_of_the_table_is_cut_off_and_a_sides_own_error_is_not():
    """1.5 % of the table on the left and above; on the other sides the picture ends in the card."""
    seen = np.array([[15, 21], [997, 20], [1004, 1396], [16, 1403]], float)
    assert trimmed(seen, 1000, 1400).tolist() == [[15, 21], [1000, 20], [1000, 1400], [16, 1400]]


@pytest.mark.parametrize("quad, narrower", [
    (box(0, 0, 1000, 1400), False), (box(15, 21, 970, 1358), False), (box(0, 0, 975, 1400), False),
    (box(0, 0, 900, 1400), True), (box(0, 140, 1000, 1260), True),
])
def test_a_strip_down_one_side_is_the_cards(quad, narrower):
    """Without it the card would be no longer of its proportion; slivers all round leave that."""
    assert is_narrower(quad, 1000, 1400) is narrower
    assert not is_narrower(box(0, 0, 1000, 1400), 1000, 1460)


def test_one_look_does_not_outvote_two():
    """A verdict is the mean of the odds of three looks (a logarithmic opinion pool: Genest &
    Zidek, "Combining probability distributions", 1986), none surer than one in a thousand."""
    before = reading(box(0, 0, 250, 350), 0.5)
    look = LastLook(before.quad, np.zeros((4, 144, 112)), np.eye(3),
                    np.array([[0.8, 0.99, 0.2], [0.8, 0.99, 0.2]]))
    heard = look.heard(before)
    assert heard.tight == pytest.approx(4 ** (2 / 3) / (1 + 4 ** (2 / 3)))
    assert heard.loose == pytest.approx(0.99) and heard.quad is before.quad
    doubted = LastLook(before.quad, look.shares, look.onto, np.array([[0.0, 1, 0], [0.99, 1, 0]]))
    assert doubted.heard(reading(before.quad, 0.99)).tight > 0.6


def test_what_looks_filled_by_its_card_at_once_is_that_card_whatever_is_drawn_in_it():
    """Two rectangles of a card in the art do not outweigh sides that run along the picture."""
    inner = [Within(box(20, 20, 280, 392), 1.4), Within(box(320, 20, 280, 392), 1.4)]
    assert not is_whole_card(640, 900, inner, filled=0.99, at_once=0.7)
    assert is_whole_card(640, 900, inner, filled=0.99, at_once=0.95)


@pytest.mark.parametrize("step, whole", [(300, False), (225, True)], ids=["scan", "quilt"])
def test_many_cards_with_bare_glass_between_them_are_a_scan(step, whole):
    """Nine of them, apart on the scanner's glass, or as patches that leave nothing bare."""
    inner = [Within(box(step * x, step * 1.4 * y, 225, 315), 1.4)
             for x in range(3) for y in range(3)]
    assert is_whole_card(3 * step, round(4.2 * step), inner, filled=0.99, at_once=0.95) is whole


@pytest.mark.parametrize("sizes, whole", [
    ([(200, 280)] * 3, False),
    ([(200, 280)] * 2, True),
    ([(200, 280), (170, 238), (150, 210)], True),
])
def test_three_cards_of_one_size_are_laid_out(sizes, whole):
    """What is drawn in a card is seldom three times as large; two are pictures in a collage."""
    inner = [Within(box(20 + 300 * at, 400, *size), 1.4) for at, size in enumerate(sizes)]
    assert is_whole_card(1000, 1400, inner, filled=0.99, at_once=0.95) is whole


@pytest.mark.parametrize("size, whole", [((250, 350), False), ((280, 392), True)])
@pytest.mark.parametrize("glass", [(850, 1170), (1170, 850), (827, 1169)])
def test_a_card_of_its_own_size_on_all_of_a_scanners_glass_is_the_card(glass, size, whole):
    """At 100 px an inch: glass of 8.5 × 11.7 in (common practice, no source) or A4 (ISO 216)."""
    inner = [Within(box(300, 200, *size), 1.4)]
    assert is_whole_card(*glass, inner, filled=0.99, at_once=0.95) is whole
    assert is_whole_card(1000, 1400, inner, filled=0.99, at_once=0.95)


def test_a_card_in_a_picture_that_surely_is_not_filled_by_one_is_the_card():
    """Though it lies along the picture's border, where a frame of the art may."""
    inner = [Within(box(5, 300, 300, 420), 1.4)]
    assert not is_whole_card(1000, 1400, inner, filled=0.0, at_once=0.01)
    assert is_whole_card(1000, 1400, inner) and is_whole_card(1000, 1400, [], 0.0, 0.01)


def test_a_small_rectangle_in_the_very_middle_is_drawn_there():
    """Nobody lays a card so exactly; a little off the middle it is a card on a sheet."""
    middle, beside = box(220, 310, 200, 280), box(260, 310, 200, 280)
    assert is_whole_card(640, 900, [Within(middle, 1.4)], filled=0.7)
    assert not is_whole_card(640, 900, [Within(middle, 1.4)], filled=0.1)
    assert not is_whole_card(640, 900, [Within(beside, 1.4)], filled=0.7)
