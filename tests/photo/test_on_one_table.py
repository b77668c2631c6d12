"""Cards of one photo measured on their common table, and held to their common size.

The pictures of corners are made here by a pinhole camera, the model of Zhang and He
("Whiteboard It!", 2002) and of Liebowitz and Zisserman ("Metric rectification for
perspective images of planes", 1998): what goes in must come out again.
"""

import cv2
import numpy as np
import pytest

from swapboard.photo.equals import equalised
from swapboard.photo.plane import ERROR, UNSURE_FOCAL, on_table, table_of
from swapboard.photo.proportion import focal_in_pixels
from swapboard.photo.refining import LastLook
from swapboard.photo.verdict import kind_of

WIDTH, HEIGHT = 1600, 1200
PLACES = ((-5, -3.5, 0.2), (0.5, -3, -0.4), (5, -2.5, 1.3), (-4, 2.8, 0.0), (3.5, 3, 0.7))


def seen(sizes, tilt: float, way: float, equivalent: float = 26) -> np.ndarray:
    """Corners [n, 4, 2] px of rectangles of `sizes` inches, the camera tilted by `tilt` degrees."""
    focal = focal_in_pixels(equivalent, WIDTH, HEIGHT)
    turn, _ = cv2.Rodrigues(np.radians(tilt) * np.array([np.cos(way), np.sin(way), 0]))
    quads = []
    for (x, y, angle), (wide, tall) in zip(PLACES, sizes, strict=False):
        half = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * (wide / 2, tall / 2)
        spin = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
        on = np.column_stack([half @ spin.T + (x, y), np.zeros(4)]) @ turn.T + (0, 0, 18)
        quads.append(on[:, :2] / on[:, 2:] * focal + (WIDTH / 2, HEIGHT / 2))
    return np.array(quads)


@pytest.mark.parametrize("tilt", [0, 12, 25, 35])
@pytest.mark.parametrize("way", [0.0, 1.1, 2.5])
def test_small_cards_on_a_tilted_table_measure_seven_to_five(tilt, way):
    """Five cards together tell the tilt, and each its 7:5, to half of a hundredth."""
    quads = seen([(2.5, 3.5)] * 5, tilt, way)
    for lying in on_table(quads, [True] * 5, WIDTH, HEIGHT):
        assert lying.proportion == pytest.approx(1.4, rel=0.006)
        assert lying.unlike < 0.02


def test_another_size_beside_cards_is_measured_as_it_is():
    """A bridge card (2.25 × 3.5 in, common practice) among cards keeps its own 1.556."""
    quads = seen([(2.5, 3.5)] * 4 + [(2.25, 3.5)], 28, 0.8)
    last = on_table(quads, [True] * 5, WIDTH, HEIGHT)[-1]
    assert last.proportion == pytest.approx(3.5 / 2.25, rel=0.01)
    assert last.unlike == pytest.approx(np.log(2.5 / 2.25), abs=0.02)


@pytest.mark.parametrize("size", [(2.5, 7), (7.5, 3.5), (2.5, 10.5)])
def test_an_open_card_is_as_large_as_its_panels(size):
    """Two panels end to end, three side by side and end to end; of 2.5 × 3.5 in each."""
    quads = seen([(2.5, 3.5)] * 4 + [size], 20, 0.8)
    assert on_table(quads, [True] * 4 + [False], WIDTH, HEIGHT)[-1].unlike < 0.02


def test_a_focal_length_beside_the_usual_one_is_found():
    """Through a lens of 45 mm (35 mm equivalent) nobody told of, cards are cards all the same."""
    quads = seen([(2.5, 3.5)] * 5, 30, 0.4, equivalent=45)
    for lying in on_table(quads, [True] * 5, WIDTH, HEIGHT):
        assert lying.proportion == pytest.approx(1.4, rel=0.03)


def test_cards_seen_wrong_do_not_tip_the_table_over():
    """Seven dark cards in a tight grid, of which one was read as four and two too large."""
    quads = np.array([
        [[304, 367], [403, 369], [401, 434], [303, 436]],
        [[405, 368], [499, 368], [496, 432], [403, 434]],
        [[510, 369], [596, 367], [593, 431], [500, 432]],
        [[306, 299], [404, 300], [399, 364], [305, 369]],
        [[602, 300], [788, 299], [775, 428], [593, 431]],
        [[506, 299], [594, 300], [590, 362], [503, 365]],
        [[403, 290], [505, 290], [502, 368], [403, 367]],
    ], dtype=float)  # fmt: skip
    for lying in on_table(quads, [True] * 5 + [False] * 2, 1100, 733):
        assert lying.proportion < 1.8


@pytest.mark.parametrize("number", [1, 5])
def test_the_error_of_a_proportion_is_what_errors_of_the_corners_and_of_the_lens_make_it(number):
    """Held to 300 draws of both (propagation of distributions, JCGM 101:2008, 5.9)."""
    rng = np.random.default_rng(5)
    usual = focal_in_pixels(26, WIDTH, HEIGHT)
    quads = seen([(2.5, 3.5)] * number, 30, 0.4)
    told = on_table(quads, [True] * number, WIDTH, HEIGHT)[0].spread
    drawn = []
    for _ in range(300):
        equivalent = 26 * np.exp(rng.normal() * UNSURE_FOCAL)
        off = seen([(2.5, 3.5)] * number, 30, 0.4, equivalent if number > 1 else 26)
        long = np.linalg.norm(np.roll(off, -1, axis=1) - off, axis=2).max(axis=1)
        off = off + rng.normal(size=off.shape) * (ERROR * long + 0.5)[:, None, None]
        focal = usual * equivalent / 26 if number == 1 else None
        drawn.append(np.log(on_table(off, [True] * number, WIDTH, HEIGHT, focal)[0].proportion))
    assert told == pytest.approx(np.std(drawn), rel=0.35)


def test_a_size_that_may_be_a_card_at_a_tilt_is_no_other_size():
    """7 % off is another size where the photo can tell, and where it can tell nothing."""
    assert kind_of(1.5, 0.005) == "other size"
    assert kind_of(1.5, 0.04) == "card"
    assert kind_of(1.5, 0.2) == "other size"
    assert kind_of(1.6, 0.04) == "other size"
    assert kind_of(2.6, 0.005) == "other size"
    assert kind_of(2.6, 0.04) == "folded open"


@pytest.mark.parametrize("proportion, kind", [
    (2.9, "folded open"), (2.97, "other size"), (2.0, "other size"), (2.09, "folded open"),
])
def test_what_is_nearer_to_a_strip_than_to_an_open_card_is_another_size(proportion, kind):
    """Cut two to one or three to one (common practice, no source); panels are 15:7, 14:5, 20:7."""
    assert kind_of(proportion, 0.04) == kind


def test_a_table_turns_there_and_back():
    """What is levelled and seen again is where it was."""
    quads = seen([(2.5, 3.5)] * 5, 30, 0.4)
    table = table_of(quads, WIDTH, HEIGHT)
    assert np.allclose(table.seen(table.level(quads)), quads, atol=1e-6)


def looks(quads: np.ndarray, sure: float) -> list[LastLook]:
    """Last looks at quads; the network is so sure of their right sides, 0–1, of others wholly."""
    made = []
    for quad in quads:
        box = np.array([[32, 41], [192, 41], [192, 247], [32, 247]], np.float32)
        shares = np.zeros((4, 144, 112))
        shares[0, :, 15:17], shares[1, :, 95:97] = 1 / 2, sure / 2
        shares[2, 20], shares[3, 123] = 1, 1
        onto = cv2.getPerspectiveTransform(quad.astype(np.float32), box)
        made.append(LastLook(quad, shares, onto.astype(np.float64), np.full((2, 3), 0.9)))
    return made


def one_too_wide() -> tuple[np.ndarray, np.ndarray]:
    """Five cards, and the same with the right side of the last 4 % too far out."""
    quads = seen([(2.5, 3.5)] * 5, 10, 0.4)
    wrong = quads.copy()
    for inner, outer in ((0, 1), (3, 2)):
        wrong[-1, outer] = quads[-1, inner] + 1.04 * (quads[-1, outer] - quads[-1, inner])
    return quads, wrong


def test_the_side_least_sure_is_moved_to_the_other_cards_size():
    """The pocket's edge gives way to the card's, where the network was less sure of it."""
    quads, wrong = one_too_wide()
    table = table_of(wrong[:4], WIDTH, HEIGHT)
    mended = equalised(looks(wrong, sure=0.6), [True] * 5, table)
    width = np.linalg.norm(quads[-1, 1] - quads[-1, 0])
    assert np.abs(mended[-1] - quads[-1]).max() < 0.01 * width
    assert np.abs(np.array(mended[:4]) - quads[:4]).max() < 0.5


def test_cards_cut_unequally_by_hand_stay_as_they_are():
    """Where the network is sure of every side, a wider card is a wider card."""
    _, wrong = one_too_wide()
    table = table_of(wrong[:4], WIDTH, HEIGHT)
    kept = equalised(looks(wrong, sure=1.0), [True] * 5, table)
    assert np.allclose(kept, wrong, atol=1e-6)


def test_a_frame_short_by_one_margin_all_round_is_a_card_of_the_others_size():
    """A line drawn round the art, and the same white beyond it on every side."""
    quads = seen([(2.5, 3.5)] * 5, 0, 0.4)
    framed = quads.copy()
    across, down = quads[-1, 1] - quads[-1, 0], quads[-1, 3] - quads[-1, 0]
    margin = 0.06 * np.linalg.norm(across)
    for corner, (x, y) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        framed[-1, corner] += margin * x * across / np.linalg.norm(across)
        framed[-1, corner] += margin * y * down / np.linalg.norm(down)
    mended = equalised(looks(framed, sure=1.0), [True] * 5, table_of(quads[:4], WIDTH, HEIGHT))
    assert np.abs(mended[-1] - quads[-1]).max() < margin / 10


def test_a_margin_too_narrow_for_a_frame_is_the_others_shadows():
    """Where they were seen with theirs, one seen without stays, if the network is sure of it."""
    quads = in_rows([(254, 354)] * 4 + [(250, 350)])
    kept = equalised(looks(quads, sure=1.0), [True] * 5, table_of(quads, WIDTH, HEIGHT))
    assert np.allclose(kept, quads, atol=1e-6)


def in_rows(sizes: list[tuple[int, int]], step: int = 300) -> np.ndarray:
    """Corners [n, 4, 2] px of rectangles of such sizes, four in a row, seen from straight above."""
    middles = [(step * (at % 4) + 250, 420 * (at // 4) + 250) for at in range(len(sizes))]
    half = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) / 2
    return np.array([half * size + middle for size, middle in zip(sizes, middles, strict=True)])


@pytest.mark.parametrize("scatter, kept", [(0, False), (4, True)])
def test_a_narrow_margin_is_a_frames_only_where_the_others_are_of_one_size(scatter, kept):
    """Where they seem to differ as much, the table does not lie as it was thought to."""
    others = [(250 + scatter * sign, 350 + scatter * sign) for sign in (-1, 1, 1, -1, 0, 0)]
    quads = in_rows([(243, 343), *others])
    now = equalised(looks(quads, sure=1.0), [True] * 7, table_of(quads, WIDTH, HEIGHT))
    assert np.allclose(np.ptp(now[0], axis=0), (243, 343) if kept else (250, 350), atol=2)


@pytest.mark.parametrize("sure, kept", [(0.945, True), (0.93, False)])
def test_a_long_side_is_sure_sooner_than_a_short_one(sure, kept):
    """Beside a neighbour; the network is never surer of the long ones than 0.96."""
    quads = in_rows([(256, 350)] + [(250, 350)] * 4, 270)
    now = equalised(looks(quads, sure=sure), [True] * 5, table_of(quads[1:], WIDTH, HEIGHT))
    assert np.ptp(now[0], axis=0)[0] == pytest.approx(256 if kept else 250, abs=1)


@pytest.mark.parametrize("sure, kept", [(0.975, True), (0.96, False)])
def test_a_short_side_is_not_sure_so_soon(sure, kept):
    """Of those the network may be surer: by 0.98."""
    quads = in_rows([(250, 358)] + [(250, 350)] * 4, 270)
    seen_so = looks(quads, sure=1.0)
    seen_so[0].shares[2] *= sure
    now = equalised(seen_so, [True] * 5, table_of(quads[1:], WIDTH, HEIGHT))
    assert np.ptp(now[0], axis=0)[1] == pytest.approx(358 if kept else 350, abs=1)


@pytest.mark.parametrize("inner, larger", [((220, 320), True), ((230, 322), False)],
                         ids=["frames", "smaller cards"])
def test_frames_drawn_on_most_cards_do_not_make_their_size(inner, larger):
    """What is left within even margins is longer than 7:5 (5:7 in a card is its own measure);
    smaller cards of the same proportion are what they are, and the more of them agree."""
    quads = in_rows([inner] * 5 + [(250, 350)] * 3)
    sizes = [np.ptp(one, axis=0) for one in
             equalised(looks(quads, sure=1.0), [True] * 8, table_of(quads, WIDTH, HEIGHT))]
    assert np.allclose(sizes[:5], (250, 350) if larger else inner, atol=2)


def test_a_card_is_not_held_to_frames_drawn_on_the_others():
    """Two that were seen whole among four seen by their frames stay, unsure of a side or not."""
    quads = in_rows([(220, 320)] * 4 + [(250, 350)] * 2)
    table = table_of(quads, WIDTH, HEIGHT)
    kept = equalised(looks(quads, sure=0.6), [True] * 6, table)
    assert np.allclose(kept[4:], quads[4:], atol=1e-6)


def test_two_cards_make_no_size():
    """Of two that differ neither is held to the other."""
    _, wrong = one_too_wide()
    pair = wrong[[0, 4]]
    kept = equalised(looks(pair, sure=0.6), [True, True], table_of(pair, WIDTH, HEIGHT))
    assert np.allclose(kept, pair, atol=1e-6)
