"""Pocket pages of many makes: in binders, held up, cut by the frame, with cards of any size."""

from dataclasses import dataclass

import cv2
import numpy as np

from finder_training.art.cards import draw_card, scatter
from finder_training.layouts.films import draw_film
from finder_training.layouts.frames import fitted, nearer
from finder_training.layouts.places import PLAIN, put, stage_for
from finder_training.noise import Random, any_colour
from finder_training.stage import CARD, Look, Stage, corners_of, lay, outside, project
from finder_training.table import clutter

MOST = 24
"""As many cards as a scene of the training may hold (`samples.MOST`)."""


@dataclass(frozen=True, slots=True)
class Page:
    """Pockets of a page, in inches: `places` [n, 2] their middles from the page's own, `pocket`
    their size, `size` the page's; it lies turned by `turn` with its middle at `middle`."""

    places: np.ndarray
    pocket: np.ndarray
    size: np.ndarray
    middle: np.ndarray
    turn: float

    def at(self, points: np.ndarray) -> np.ndarray:
        """Points [n, 2] on the page as places on the table."""
        spin = np.array([[np.cos(self.turn), -np.sin(self.turn)],
                         [np.sin(self.turn), np.cos(self.turn)]])
        return np.asarray(points) @ spin.T + self.middle

    def quad(self, stage: Stage, middle: np.ndarray, size: np.ndarray) -> np.ndarray:
        """Corners [4, 2] px of a rectangle on the page."""
        return project(stage.onto, self.at(corners_of(middle, tuple(size), 0.0)))


@dataclass(frozen=True, slots=True)
class Filling:
    """How pages are filled: the share of pockets with a card, of small cards, of white cards
    with a little drawing, of pockets with two, of cards half pulled out; whether sheets of card
    stand in the pockets, of which tone; how whitish (0-1) an empty pocket's film is."""

    full: float
    small: float
    white: float
    double: float
    pulled: float
    sheet: np.ndarray | None
    whitish: float


def binder_page(rng: Random, long: int, pictures: list) -> Stage:
    """One page or two of an open binder, with four to sixteen pockets each."""
    stage = stage_for(rng, long, long / 12, pictures,
                      str(rng.choice(PLAIN + ("black",) * 2 + ("any",) * 3)), 28)
    held = rng.random() < 0.15
    if held:
        small = cv2.resize(stage.picture, None, fx=0.05, fy=0.05, interpolation=cv2.INTER_AREA)
        stage.picture = cv2.resize(small, stage.size, interpolation=cv2.INTER_CUBIC)
    pages = _pages(rng, stage)
    corners = np.concatenate([p.at(corners_of(np.zeros(2), tuple(p.size), 0.0)) for p in pages])
    fitted(stage, corners, rng.uniform(0.7, 1.0))
    nearer(stage, rng, 0.4, 1.7)
    if len(pages) == 2:
        _cover(stage, rng, corners)
    filling = _filling(rng)
    for page in pages:
        _back(stage, rng, page, filling)
        empty = _fill(stage, rng, page, filling, pictures)
        draw_film(stage, rng, page.at, page.places, page.pocket, page.size, empty)
    if rng.random() < 0.7:
        _rings(stage, rng, pages)
    if held:
        _hands(stage, rng, pages[0])
    clutter.falloff(stage, rng)
    if rng.random() < 0.25:
        clutter.shade(stage, rng)
    return stage


def _pages(rng: Random, stage: Stage) -> list[Page]:
    """One page, or two beside each other."""
    shapes = [(2, 2), (2, 2), (3, 3), (3, 3), (3, 3), (4, 3), (3, 4), (2, 3), (1, 3)]
    columns, rows = shapes[int(rng.integers(len(shapes)))]
    pocket = np.array([rng.uniform(2.58, 3.0), rng.uniform(3.58, 4.0)])
    if rng.random() < 0.2:
        pocket = pocket[::-1].copy()
    elif rng.random() < 0.15:
        pocket = rng.uniform(3.7, 5.2, 2)
    pitch = pocket + rng.uniform(0.03, 0.3, 2)
    strip = rng.uniform(0.5, 1.0) * (rng.random() < 0.7)
    margin = rng.uniform(0.08, 0.5, 2)
    size = pitch * (columns, rows) + margin * 2 + (strip, 0)
    grid = np.array([[x, y] for y in range(rows) for x in range(columns)], float)
    places = (grid - ((columns - 1) / 2, (rows - 1) / 2)) * pitch + (strip / 2, 0)
    double = rng.random() < 0.25 and 2 * columns * rows <= MOST
    wide = size[0] * (2 if double else 1) > size[1]
    sideways = (stage.size[0] > stage.size[1]) != wide
    turn = rng.normal() * 0.07 + (np.pi / 2 if sideways and rng.random() < 0.5 else 0)
    if not double:
        return [Page(places, pocket, size, np.zeros(2), turn)]
    aside = size[0] / 2 + rng.uniform(0.05, 0.7)
    along = np.array([np.cos(turn), np.sin(turn)]) * aside
    return [Page(places, pocket, size, along, turn + rng.normal() * 0.015),
            Page(places * (-1, 1), pocket, size, -along, turn + rng.normal() * 0.015)]


def _filling(rng: Random) -> Filling:
    sheets = rng.random() < 0.35
    tones = (np.full(3, rng.uniform(225, 252)), np.full(3, rng.uniform(10, 40)), any_colour(rng))
    return Filling(
        full=float(rng.choice([1.0, 0.85, 0.6, 0.4, 0.2])),
        small=float(rng.choice([0.0, 0.0, 0.3, 1.0])),
        white=float(rng.choice([0.0, 0.1, 0.5, 1.0], p=[0.5, 0.15, 0.2, 0.15])),
        double=float(rng.choice([0.0, 0.15])),
        pulled=float(rng.choice([0.0, 0.2], p=[0.7, 0.3])),
        sheet=tones[int(rng.integers(3))] if sheets else None,
        whitish=float(rng.uniform(0.25, 0.85)) if rng.random() < 0.45 else 0.0,
    )


def _cover(stage: Stage, rng: Random, corners: np.ndarray) -> None:
    """The open binder beneath its pages."""
    low, high = corners.min(axis=0), corners.max(axis=0)
    size = high - low + rng.uniform(0.2, 1.2, 2)
    tone = np.full((8, 8, 3), any_colour(rng, 10, 200), np.uint8)
    quad = project(stage.onto, corners_of((low + high) / 2, tuple(size), 0.0))
    lay(stage, tone, quad, tuple(size), Look(radius=0.3, dark=0.4, soft=4.0), is_card=False)


def _back(stage: Stage, rng: Random, page: Page, filling: Filling) -> None:
    """The page's own film against the table, and the sheets in its pockets."""
    clear = np.full((8, 8, 3), rng.uniform(150, 255), np.uint8)
    opaque = rng.uniform(0.03, 0.25)
    if rng.random() < 0.25:
        clear[:] = rng.choice([rng.uniform(5, 40), rng.uniform(225, 252), 0]) or any_colour(rng)
        opaque = 1.0
    quad = page.quad(stage, np.zeros(2), page.size)
    look = Look(radius=rng.uniform(0, 0.2), opacity=opaque, dark=rng.uniform(0, 0.35), soft=2.0,
                lit=rng.uniform(0, 60))
    lay(stage, clear, quad, tuple(page.size), look, is_card=False)
    if filling.sheet is None:
        return
    sheet = np.full((8, 8, 3), np.clip(filling.sheet, 0, 255), np.uint8)
    size = page.pocket * rng.uniform(0.93, 1.0)
    for place in page.places:
        if rng.random() < 0.9:
            quad = page.quad(stage, place, size)
            lay(stage, sheet, quad, tuple(size), Look(dark=0.1, soft=1.0), is_card=False)


def _fill(stage: Stage, rng: Random, page: Page, filling: Filling, pictures: list) -> list[int]:
    """Cards into the pockets; answers which stay empty. Those, and pockets much larger than
    what is in them, are decoys."""
    empty = []
    for index, place in enumerate(page.places):
        pocket = page.quad(stage, place, page.pocket * rng.uniform(0.94, 1.0))
        if rng.random() > filling.full or len(stage.cards) > MOST - 2:
            empty.append(index)
            if outside(pocket, stage.size) < 0.6:
                stage.decoys.append(pocket)
            if filling.whitish:
                _milky(stage, rng, page, place, filling.whitish)
            continue
        size = _fitting(rng, page.pocket, filling)
        if rng.random() < filling.double:
            _two(stage, rng, page, place, filling, pictures)
        else:
            slack = page.pocket - size
            shift = slack * (rng.uniform(-0.5, 0.5), rng.choice([rng.uniform(-0.5, 0.5), 0.48]))
            if rng.random() < filling.pulled:
                shift[1] = -rng.uniform(0.3, 2.2)
            _card(stage, rng, page, place + shift, size, filling, pictures)
        if (size < page.pocket * 0.8).any() and outside(pocket, stage.size) < 0.6:
            stage.decoys.append(pocket)
    return empty


def _fitting(rng: Random, pocket: np.ndarray, filling: Filling) -> np.ndarray:
    """The size of a card that fits the pocket, upright or lying, often as large as can be."""
    size = np.array(CARD)
    if pocket[0] > pocket[1]:
        size = size[::-1]
    if min(pocket) > 3.6 and rng.random() < 0.5:
        size = size[::-1]
    if rng.random() < filling.small:
        size = size * rng.uniform(0.55, 0.92)
        if size[1] < pocket[0] and rng.random() < 0.4:
            size = size[::-1]
    return np.minimum(size, pocket)


def _card(stage: Stage, rng: Random, page: Page, at: np.ndarray, size: np.ndarray,
          filling: Filling, pictures: list) -> None:
    """A card at a place on the page."""
    art = None
    if rng.random() < filling.white:
        art = np.full((175, 125, 3), rng.uniform(215, 254) + rng.uniform(-10, 2, 3), np.uint8)
        art = art if size[1] > size[0] else art.transpose(1, 0, 2).copy()
        part = art[art.shape[0] // 3 : -art.shape[0] // 4, art.shape[1] // 4 : -art.shape[1] // 4]
        if rng.random() < 0.3:
            part[:] = draw_card(part.shape[1], part.shape[0], rng, pictures)
        else:
            scatter(part, int(rng.integers(1, 5)), rng, 0.6)
    look = Look(float(rng.choice([0, 0, 0.125])), soft=rng.uniform(0.6, 2),
                dark=rng.uniform(0, 0.4), lift=rng.uniform(0, 1.5),
                lit=float(rng.choice([0, rng.uniform(5, 50)])),
                dim=float(rng.choice([0, rng.uniform(5, 50)])))
    put(stage, rng, page.at(at[None])[0], page.turn + rng.normal() * 0.012, pictures,
        tuple(size), art, look)


def _two(stage: Stage, rng: Random, page: Page, place: np.ndarray, filling: Filling,
         pictures: list) -> None:
    """Two cards in one pocket: small ones a little apart, or one half behind the other."""
    long = int(page.pocket[1] > page.pocket[0])
    away = np.eye(2)[long]
    if rng.random() < 0.6:
        gap = rng.uniform(0.06, 0.4)
        each = page.pocket - away * (page.pocket[long] + gap) / 2
        size = each * rng.uniform(0.8, 0.97, 2)
        step = away * (page.pocket[long] + gap) / 4
        for side in (-1, 1):
            _card(stage, rng, page, place + step * side, size, filling, pictures)
        return
    size = _fitting(rng, page.pocket, filling) * 0.93
    step = rng.normal(size=2) * 0.12
    for side in (-1, 1):
        _card(stage, rng, page, place + step * side, size, filling, pictures)


def _milky(stage: Stage, rng: Random, page: Page, place: np.ndarray, share: float) -> None:
    """An empty pocket whose film catches the light: as pale as a white card, with a shadow."""
    tone = np.full((10, 8, 3), rng.uniform(190, 255) + rng.uniform(-8, 8, 3), np.float32)
    tone += np.linspace(-1, 1, 10, dtype=np.float32)[:, None, None] * rng.normal() * 15
    size = page.pocket * rng.uniform(0.93, 1.0)
    look = Look(radius=rng.uniform(0, 0.15), opacity=share * rng.uniform(0.8, 1.1),
                dark=rng.uniform(0.1, 0.6), soft=rng.uniform(0.8, 3), lift=rng.uniform(0, 1.5))
    quad = page.quad(stage, place, size)
    lay(stage, np.clip(tone, 0, 255).astype(np.uint8), quad, tuple(size), look, is_card=False)


def _rings(stage: Stage, rng: Random, pages: list[Page]) -> None:
    """Holes along the inner side of each page; rings through them where two lie open."""
    count = int(rng.choice([2, 3, 3, 4]))
    far, in_ = rng.uniform(0.25, 0.42), rng.uniform(0.15, 0.45)
    tone = tuple(float(v) for v in np.full(3, rng.choice([15, 40, 120, 230])))
    seen = []
    for side, page in zip((-1, 1), pages, strict=False):
        x = side * (page.size[0] / 2 - in_)
        along = np.linspace(-far, far, count) * page.size[1]
        seen.append(project(stage.onto, page.at([[x, y] for y in along])))
        inch = np.hypot(*(seen[-1][1] - seen[-1][0])) / (along[1] - along[0])
        for point in seen[-1]:
            cv2.circle(stage.picture, tuple(int(v) for v in point), max(int(inch * 0.1), 1), tone,
                       -1, cv2.LINE_AA)
    if len(seen) == 2:
        bright, dark = (float(rng.uniform(170, 255)),) * 3, (float(rng.uniform(30, 90)),) * 3
        for one, other in zip(*seen, strict=True):
            ends = [tuple(int(v * 16) for v in end) for end in (one, other)]
            thick = max(int(inch * rng.uniform(0.08, 0.16)), 1)
            cv2.line(stage.picture, *ends, dark, thick + 2, cv2.LINE_AA, 4)
            cv2.line(stage.picture, *ends, bright, thick, cv2.LINE_AA, 4)


def _hands(stage: Stage, rng: Random, page: Page) -> None:
    """Thumbs on the sides of a page that is held up."""
    quad = page.quad(stage, np.zeros(2), page.size)
    inch = float(np.hypot(*(quad[1] - quad[0])) / page.size[0])
    for one, other in ((0, 3), (1, 2)):
        if rng.random() < 0.75:
            share = rng.uniform(0.3, 0.95)
            edge = quad[one] * (1 - share) + quad[other] * share
            out = edge - quad.mean(axis=0) + rng.normal(size=2) * inch
            out = out / np.hypot(*out)
            clutter.finger(stage, edge - out * inch * rng.uniform(0.3, 1.2), out,
                           inch * rng.uniform(0.7, 1.0), rng)
