"""What the bench counts, on pictures whose answers are made up here."""

import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.append(str(Path(__file__).resolve().parents[1] / "bench"))

import photo_samples

NONE = np.zeros((0, 4, 2))


def box(x: float, y: float, width: float = 250, height: float = 350) -> np.ndarray:
    return np.array([[x, y], [x + width, y], [x + width, y + height], [x, y + height]], float)


def sample(**truth) -> photo_samples.Sample:
    whole = truth.pop("whole", NONE)
    odd = truth.pop("odd", np.zeros(len(whole), bool))
    parts = {"excused": odd, "cut": NONE, "covered": NONE, "pockets": NONE} | truth
    return photo_samples.Sample("page", np.zeros((400, 900, 3), np.uint8), whole, odd, **parts)


@pytest.fixture
def counted(monkeypatch):
    def count(answer, **truth) -> photo_samples.Measured:
        monkeypatch.setattr(photo_samples, "ours", lambda picture: answer)
        return photo_samples.measure(sample(**truth))

    return count


def test_a_crop_beside_the_card_is_wrong_and_no_false_one(counted):
    """A crop of most of a card, but not nine tenths, is wrong; one elsewhere is false as well."""
    told = counted([(box(40, 0), False), (box(600, 0), True)], whole=np.array([box(0, 0)]))
    assert (told.crops, told.wrong, told.silent, told.false, told.unflagged) == (2, 2, 1, 1, 1)
    assert told.overlaps == (pytest.approx(210 / 290),)


def test_good_crops_that_are_flagged_are_counted_but_for_other_sizes(counted):
    """A flag on a card of its size is one too many; on another size it is what is asked."""
    cards = np.array([box(0, 0), box(300, 0, 300, 300)])
    told = counted([(cards[0], True), (cards[1], True)], whole=cards, odd=np.array([False, True]))
    assert (told.good, told.flagged, told.odd, told.wrong) == (1, 1, (1, 1), 0)
    assert told.errors == (0.0,) * 8


def test_a_cut_card_must_be_flagged(counted):
    """A crop of a card that leaves the frame is right with a flag, and wrong in silence without."""
    cut, seen = np.array([box(-100, 0)]), box(0, 0, 150)
    assert (flagged := counted([(seen, True)], cut=cut)).cut == (1, 1, 1)
    assert (silent := counted([(seen, False)], cut=cut)).cut == (1, 1, 0)
    assert (flagged.wrong, silent.wrong, silent.silent) == (0, 1, 1)
    assert counted([], cut=cut).cut == (1, 0, 0)


def test_an_empty_pocket_taken_is_counted_flagged_or_not(counted):
    """Of two empty pockets the one that a crop lies on is taken."""
    pockets = np.array([box(0, 0), box(300, 0)])
    told = counted([(box(305, 4), True)], pockets=pockets)
    assert (told.pockets, told.silent, told.false) == ((2, 1), 0, 1)


def test_what_something_covers_is_not_counted(counted):
    """A crop of a covered card is neither right nor wrong."""
    told = counted([(box(10, 0), False)], covered=np.array([box(0, 0)]))
    assert (told.crops, told.wrong, told.silent, told.good) == (1, 0, 0, 0)


def test_sizes_that_a_folded_card_has_are_not_other_sizes():
    """Open cards (15:7, 14:5) and cards within 5 % are no other size; a square is."""
    proportions = np.array([1.4, 1.45, 15 / 7, 2.8, 1.0, 1.53])
    assert photo_samples.off_size(proportions).tolist() == [False] * 4 + [True] * 2
