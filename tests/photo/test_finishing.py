"""The last fit of a card's sides to the photo's own pixels, each by itself."""

import cv2
import numpy as np
import pytest

from swapboard.disk.finder import networks
from swapboard.photo import finishing
from swapboard.photo.finishing import _finished, seen_last
from swapboard.photo.looking import Looks
from swapboard.photo.loupe import moved
from swapboard.photo.panels import share_edge
from swapboard.photo.refining import Refined
from swapboard.photo.voting import Glances

CARD = np.array([[200, 150], [450, 150], [450, 500], [200, 500]], float)


def photo(blurred: bool = False) -> np.ndarray:
    """A pale card on a dark table, its right side out of focus or not."""
    picture = np.full((650, 650, 3), 40, np.uint8)
    cv2.rectangle(picture, (200, 150), (449, 499), (220, 210, 200), -1)
    if blurred:
        rng = np.random.default_rng(3)
        strip = picture[:, 430:470]
        strip[:] = rng.integers(30, 230, (strip.shape[0], 1, 3)).astype(np.uint8)
    return picture


def off(quad: np.ndarray, by: float) -> np.ndarray:
    return quad + by * np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])


def test_every_side_goes_to_the_edge_beside_it():
    assert np.abs(_finished(photo(), off(CARD, 1.2)) - CARD).max() < 0.3


def test_a_side_without_an_edge_stays_and_the_others_go():
    """The table beside its right side is as mixed as what lies there."""
    began = off(CARD, 1.2)
    x, y = _finished(photo(blurred=True), began).T
    assert x[[0, 3]] == pytest.approx(200, abs=0.4)
    assert y == pytest.approx([150, 150, 500, 500], abs=0.4)
    assert x[[1, 2]] == pytest.approx(began[[1, 2], 0], abs=0.4)


@pytest.mark.parametrize("away, kept", [(0.8, False), (1.4, True)])
def test_an_edge_farther_away_is_another(away, kept):
    """A shadow's or a neighbour's: more than 0.8 % of the card's length, or a pixel."""
    picture = np.full((200, 200, 3), 40, np.uint8)
    picture[50:150, 60:132] = 210
    began = np.array([[60, 50], [132, 50], [132, 150], [60, 150]], float)
    began[[1, 2], 0] += away
    x, _ = _finished(picture, began).T
    assert x[[1, 2]] == pytest.approx(132 + away if kept else 132, abs=0.3)


@pytest.mark.parametrize("by", [0.0, 0.03])
def test_panels_that_meet_along_a_fold_are_not_parted_at_last(monkeypatch, by):
    """By what is drawn along it, which looks like an edge from near."""
    picture = np.full((650, 900, 3), 40, np.uint8)
    cv2.rectangle(picture, (200, 150), (699, 499), (220, 210, 200), -1)
    cv2.circle(picture, (325, 320), 70, (60, 90, 150), -1)
    cv2.rectangle(picture, (480, 200), (670, 450), (150, 60, 70), -1)
    panels = [CARD, CARD + [250, 0]]
    monkeypatch.setattr(finishing, "on_own_edges", lambda quads, *_: [
        moved(quad, np.array([0, by, 0, by])) for quad in quads])
    chosen = [(Refined(quad, 0.99, 0.99, 0.0, np.ones(4), 0.0, 0.2, 0.3), 0.0) for quad in panels]
    looks = Looks(picture, networks())
    seen = seen_last(picture, looks, chosen, [], Glances(picture, networks()), None)
    assert share_edge(*(one.quad for one in seen))


@pytest.mark.parametrize("loose, share, plain", [(0.25, 0.9, True), (0.25, 0.5, False),
                                                 (0.99, 0.9, False)])
def test_a_card_that_only_the_proposer_saw_is_known_as_such(loose, share, plain):
    """By what was seen of it at first, whatever the last look says."""

    class Sharing(Glances):
        def share_on(self, quad):
            return share

    looks = Looks(photo(), networks())
    one = Refined(CARD, 0.3, loose, 0.0, np.ones(4), 0.0, 0.2, 0.3)
    (seen,) = seen_last(photo(), looks, [(one, 0.0)], [], Sharing(photo(), networks()), None)
    assert seen.plain is plain and seen.refined.loose > 0.5
