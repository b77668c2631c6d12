"""What the proposer says of a picture: how sure it is of a place, and where cards are.

Every pixel votes for its card's corners (`gathering` says for which cards they do).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np

from swapboard.photo.gathering import AS_LARGE, NEAR, gathered, votes_of
from swapboard.photo.geometry import covered, mean_sides, signed_area
from swapboard.photo.mirrored import STRIDE, both_ways
from swapboard.photo.networks import PROPOSER_SIDE, Networks
from swapboard.photo.shrinking import shrunk, working_copy
from swapboard.photo.warps import Pyramid, straightened
from swapboard.photo.whole_frame import may_be_whole

AFAR, LARGE, LIKELY = 0.2, 0.25, 0.5
"""The margin about a picture with which it is seen from farther away; the share of it from which a
card is large; and how likely one must be for it to be looked at for that alone."""

NEARLY_A_CARD, BROAD = (1.47, 1.56), 1.3
"""Proportions of pictures, 3:2 above all, that are nearly a card's: in such the proposer sees less,
for most of what it learnt from that has a card's was nothing but one. And the proportion as which
pictures of a card's are shown it, their border going on, and others where nothing is sure. (Of 182
cards in scans of a card's proportion by other hands it saw 113 in the picture as it is, all so
broad; of 522 in photos of 3:2 467 and 475, not the same ones.)"""

ABOUT, HALF = 0.02, 0.75
"""Of a sheet's sides, what is shown about it when it is seen from nearer; and of the longer ones
how much a half is, which has no card's proportion: what is half as long lies whole in one."""

INNER, OUTER = 0.9, 1.1
"""Of a card's sides, what is well within them on the maps, and what well about them."""

LEFT_OVER, MOST_LIKELY, ABOUT_IT = 0.0085, 0.6, 1.15
"""Of the maps, how much looks like a card beside those found, 0–1 for each pixel, and how much the
likeliest of it, for another look; and what is well about a found one. (So it was in 96 of
1,000 pictures by other hands, and, scans aside, in all six in which another look found more.)"""

ALL_OVER = 0.85
"""How sure the proposer is all over what may be one card from afar."""

FOR_ONE = 0.5
"""Of what the proposer sees as card all over what looks like one that lies open, how much votes for
that at least. (Of 112 told without a doubt, by other hands, 105 were one: less voted for four of
those, and for five of the seven that were two cards which touch.)"""

TURNS, TAKEN = (cv2.ROTATE_180, cv2.ROTATE_90_CLOCKWISE), 0.3
"""Which other ways the picture is shown; and of what is seen then, what may lie on found cards."""

PATTERN = 8
"""More such are print, or another pattern. (Of 139 pictures by other hands in which any were seen
four had more; where another look found a card, it was among the first five.)"""


@dataclass(frozen=True, slots=True)
class Votes:
    """What the proposer says of a whole picture, seen from near or from farther away.

    `maps` [11, 128, 128] as `Networks.maps` tells them, in which nothing lies beyond the picture;
    `inside` bool [128, 128] where that is; `scale` (x, y), px of 512 for one px of the picture, and
    `offset` (x, y) where it begins in those.
    """

    maps: np.ndarray
    inside: np.ndarray
    scale: np.ndarray
    offset: np.ndarray

    def quads(self) -> np.ndarray:
        """Quadrilaterals [n, 4, 2] in px of the picture, clockwise, surest first."""
        return (gathered(self.maps) - self.offset) / self.scale

    def holds(self, quad: np.ndarray) -> bool:
        """Whether a quadrilateral [4, 2] px lies in the picture, and fills it by no means."""
        at = (quad * self.scale + self.offset) / STRIDE
        size = np.array([self.inside.any(axis=0).sum(), self.inside.any(axis=1).sum()])
        within = at.min() >= 0 and (at <= size).all()
        return bool(within and abs(signed_area(at)) < LARGE * size.prod())

    def share_on(self, quad: np.ndarray) -> float:
        """How sure the proposer is, 0–1, that a card lies on all of a quadrilateral [4, 2] px that
        is in the picture.

        It sees the picture as a whole: that a page lies on the printed cloth which shows through
        its empty pockets, say, which one who looks at each pocket closely cannot know.
        """
        return self._share(self._on(quad, INNER) & self.inside)

    def share_there_alone(self, quad: np.ndarray) -> float:
        """The same, but the less the more of a card seems to lie beside it too: with a margin about
        it, cloth that fills a picture looks like one card."""
        beside = self._share(~self._on(quad, OUTER) & self.inside)
        return self.share_on(quad) * (1 - beside)

    def agreed_on(self, quad: np.ndarray) -> float:
        """The share, 0–1, of what lies well within a quadrilateral [4, 2] px that votes for one
        card there: a sheet's cards vote each for itself, a card's patches for the card."""
        corners, sizes = votes_of(self.maps, *np.nonzero(self._on(quad, INNER) & self.inside))
        at = quad * self.scale + self.offset
        middle = at.mean(axis=0)
        size = np.linalg.norm(at - middle, axis=1).mean()
        near = np.linalg.norm(corners.mean(axis=1) - middle, axis=1) < NEAR * size
        alike = np.abs(np.log(np.maximum(sizes, 1) / size)) < AS_LARGE
        return float((near & alike).mean()) if len(sizes) else 0.0

    def is_left_over(self, quads: Sequence[np.ndarray]) -> bool:
        """Whether something looks like a card that is none of the quadrilaterals [4, 2] px."""
        beside = self.inside.copy()
        for quad in quads:
            beside &= ~self._on(quad, ABOUT_IT)
        shares = self.maps[0][beside]
        return bool(shares.sum() > LEFT_OVER * beside.size and shares.max() > MOST_LIKELY)

    def _on(self, quad: np.ndarray, times: float) -> np.ndarray:
        """bool [128, 128]: what lies in the quadrilateral, so many times as large."""
        about = quad.mean(axis=0) + (quad - quad.mean(axis=0)) * times
        at = (about * self.scale + self.offset) / STRIDE - 0.5
        on = np.zeros(self.inside.shape, np.uint8)
        cv2.fillConvexPoly(on, np.round(at * 16).astype(np.int32), 1, shift=4)
        return on > 0

    def _share(self, where: np.ndarray) -> float:
        return float(self.maps[0][where].mean()) if where.any() else 0.0


class Glances:
    """A picture as the proposer sees it, and from farther away what is large in it: a card that
    fills most of a photo looks to it like none."""

    def __init__(self, picture: np.ndarray, networks: Networks) -> None:
        self._picture, self._networks = picture, networks
        self._size = np.array(picture.shape[1::-1])
        self._near, self._far = votes(picture, networks, mirror=True), None
        self._parts: list[tuple[np.ndarray, Votes]] = []
        """Parts of the picture, and the homography from its px to theirs."""

    def quads(self) -> np.ndarray:
        """Quadrilaterals [n, 4, 2] in px of the picture, clockwise, surest first."""
        return self._near.quads()

    def turned_quads(self, found: Sequence[np.ndarray]) -> list[np.ndarray]:
        """Likewise, those [4, 2] beside what was found [4, 2] px that the proposer sees with the
        picture turned upside down or onto a side; none, if nothing was left over."""
        if not self._near.is_left_over(found):
            return []
        small, scale = working_copy(self._picture, PROPOSER_SIDE)
        quads = np.concatenate([
            _turned_back(votes(cv2.rotate(small, way), self._networks).quads(), way, small.shape)
            for way in TURNS]) / scale
        beside = [quad for quad in quads if covered(quad, found) < TAKEN]
        return beside if len(beside) <= PATTERN else []

    def large_quads(self) -> list[np.ndarray]:
        """Likewise, those [4, 2] that are large and, from farther away, more likely a card than
        not."""
        far = self._from_afar()
        return [quad for quad in far.quads()
                if self._is_large(quad) and far.share_there_alone(quad) > LIKELY]

    def broad_quads(self) -> np.ndarray:
        """Likewise, in a picture of nearly a card's proportion, what the proposer sees where its
        border goes on along the longer sides; in another none."""
        if not NEARLY_A_CARD[0] < max(self._size) / min(self._size) < NEARLY_A_CARD[1]:
            return np.empty((0, 4, 2))
        part = votes(self._picture, self._networks, broad=True)
        self._parts.append((np.eye(3), part))
        return part.quads()

    def quads_within(self, quad: np.ndarray) -> np.ndarray:
        """Likewise, those seen from nearer, in a picture of nothing but a quadrilateral [4, 2] px
        and a little about it."""
        border = ABOUT * (quad.max(axis=0) - quad.min(axis=0))
        low = np.floor((quad.min(axis=0) - border).clip(min=0)).astype(int)
        high = np.ceil(quad.max(axis=0) + border).clip(max=self._size).astype(int)
        return self._seen_in(self._picture[low[1] : high[1], low[0] : high[0]], _moved_by(low))

    def _seen_in(self, part: np.ndarray, back: np.ndarray) -> np.ndarray:
        """What is seen in a part uint8 [h, w, 3], which `back` brings back to the picture."""
        seen = votes(part, self._networks)
        self._parts.append((np.linalg.inv(back), seen))
        return _through(back, seen.quads())

    def quads_on(self, quad: np.ndarray, pyramid: Pyramid) -> np.ndarray:
        """Likewise, those seen from nearer and straight before a sheet, a quadrilateral [4, 2] px
        of the pyramid's picture: turned on a table, most of what is cut out about it would be the
        table."""
        sides = np.array(mean_sides(quad))
        long = PROPOSER_SIDE / HALF if may_be_whole(*sides) else PROPOSER_SIDE
        wide, tall = (round(side * long / sides.max()) for side in sides)
        seen, back = straightened(pyramid, quad, (wide, tall), ABOUT)
        starts = [(x, y) for y in sorted({0, max(tall - PROPOSER_SIDE, 0)})
                  for x in sorted({0, max(wide - PROPOSER_SIDE, 0)})]
        return np.concatenate([
            self._seen_in(seen[y:, x:][:PROPOSER_SIDE, :PROPOSER_SIDE], back @ _moved_by((x, y)))
            for x, y in starts])

    def share_on(self, quad: np.ndarray) -> float:
        """How sure the proposer is of a quadrilateral [4, 2] px, 0–1, where it sees it best."""
        share = self._near.share_on(quad)
        for onto, part in self._parts:
            there = _through(onto, quad[None])[0]
            if part.holds(there):
                share = max(share, part.share_on(there))
        if not self._is_large(quad):
            return share
        return max(share, self._from_afar().share_there_alone(quad))

    def may_be_card(self, quad: np.ndarray) -> bool:
        """Whether, as it lies in the picture, a quadrilateral [4, 2] px is likelier a card than
        not."""
        return self._near.share_on(quad) > LIKELY

    def agreed_on(self, quad: np.ndarray) -> float:
        """How much, 0–1, of a quadrilateral [4, 2] px votes for one card there, in the picture as a
        whole; 0 where not all of it looks like card."""
        near = self._near
        return near.agreed_on(quad) if near.share_on(quad) > ALL_OVER else 0.0

    def is_parted(self, quad: np.ndarray) -> bool:
        """Whether a quadrilateral [4, 2] px looks like card all over, in the picture as a whole,
        but most of that votes for parts of it, or for more."""
        near = self._near
        return near.share_on(quad) > ALL_OVER and near.agreed_on(quad) < FOR_ONE

    def _is_large(self, quad: np.ndarray) -> bool:
        height, width = self._picture.shape[:2]
        return abs(signed_area(quad)) > LARGE * width * height

    def _from_afar(self) -> Votes:
        if self._far is None:
            self._far = votes(self._picture, self._networks, AFAR, mirror=True)
        return self._far


def _moved_by(low: Sequence[float]) -> np.ndarray:
    """The homography that moves px by (x, y)."""
    return np.array([[1.0, 0.0, low[0]], [0.0, 1.0, low[1]], [0.0, 0.0, 1.0]])


def _through(homography: np.ndarray, quads: np.ndarray) -> np.ndarray:
    """Quadrilaterals [n, 4, 2] on the other side of a homography."""
    if not len(quads):
        return quads
    return cv2.perspectiveTransform(quads.reshape(1, -1, 2), homography).reshape(-1, 4, 2)


def _turned_back(quads: np.ndarray, way: int, shape: tuple[int, ...]) -> np.ndarray:
    """Quadrilaterals [n, 4, 2] of a turned picture as they lie in the one of that shape."""
    x, y = quads[..., 0], quads[..., 1]
    if way == cv2.ROTATE_180:
        return np.stack([shape[1] - x, shape[0] - y], axis=-1)
    return np.stack([y, shape[0] - x], axis=-1)


def votes(
    picture: np.ndarray, networks: Networks, margin: float = 0.0, mirror: bool = False,
    broad: bool = False,
) -> Votes:
    """What the proposer says of a picture uint8 [h, w, 3] with a `margin` about it, as a share of
    its sides, or one that makes it `broad`, on which what lies along its border goes on; in a
    mirror too, where asked."""
    height, width = picture.shape[:2]
    scale = PROPOSER_SIDE / (max(height, width) * (1 + 2 * margin))
    wide, tall = max(round(width * scale), 1), max(round(height * scale), 1)
    beside, above = (min((PROPOSER_SIDE - side) // 2, round(side * margin))
                     for side in (wide, tall))
    if broad or (not margin and may_be_whole(width, height)):
        more = (round(PROPOSER_SIDE / BROAD) - min(wide, tall)) // 2
        beside, above = (more, 0) if wide < tall else (0, more)
    small = shrunk(picture, (wide, tall)) if scale < 1 else cv2.resize(picture, (wide, tall))
    small = cv2.copyMakeBorder(small, above, above, beside, beside, cv2.BORDER_REPLICATE)
    seen = np.zeros((PROPOSER_SIDE, PROPOSER_SIDE, 3), np.uint8)
    seen[: small.shape[0], : small.shape[1]] = small
    inside = np.zeros((PROPOSER_SIDE // STRIDE,) * 2, bool)
    inside[above // STRIDE : -(-(above + tall) // STRIDE),
           beside // STRIDE : -(-(beside + wide) // STRIDE)] = True
    maps = both_ways(seen, small.shape[1], networks) if mirror else networks.maps(seen)
    maps[:3] *= inside
    return Votes(maps, inside, np.array([wide / width, tall / height]), np.array([beside, above]))
