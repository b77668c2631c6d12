"""Which photograph shows which cards, and how it was taken."""

import numpy as np

from .camera import View
from .photograph import Laid, Scene
from .pictures import PICTURES
from .sleeve import pocket_middle

TALL = (1200, 1600)
BROAD = (1600, 1200)



def table_top(file: str, rows: tuple[str, ...], table: str, seed: int, tilt: float = 8.0,
              lean: float = 0.0, warmth: float = 0.1, light: float = 225.0, scale: float = 0.78,
              exposure: float = 1.02, gap: float = 130.0) -> Scene:
    """Cards laid out by hand in `rows` of names, `scale` px of the picture to a card
    px and `gap` card px between them.

    The seed moves and turns each card a little.
    """
    rng = np.random.default_rng(seed)
    sizes = [[PICTURES[name].size for name in row.split()] for row in rows]
    wide = max(sum(w for w, _ in row) + gap * (len(row) - 1) for row in sizes)
    highs = [max(h for _, h in row) for row in sizes]
    high = sum(highs) + gap * (len(rows) - 1)
    laid, y = [], -high / 2
    for row, row_sizes, row_high in zip(rows, sizes, highs, strict=True):
        x = -(sum(w for w, _ in row_sizes) + gap * (len(row_sizes) - 1)) / 2
        for name, (w, _) in zip(row.split(), row_sizes, strict=True):
            centre = (x + w / 2 + rng.uniform(-12, 12), y + row_high / 2 + rng.uniform(-12, 12))
            laid.append(Laid(name, centre, round(float(rng.uniform(-3.2, 3.2)), 1)))
            x += w + gap
        y += row_high + gap
    room = 1 + 0.018 * tilt
    span = wide * room + 300
    size = (round(span * scale / 4) * 4, round((high * room + 300) * scale / 4) * 4)
    return Scene(file, tuple(laid), table, View(size, span, tilt, lean), warmth, light,
                 0.28, exposure, seed=seed, quality=74, noise=0.0045)


def single(file: str, card: str, table: str, seed: int, tilt: float = 10.0, lean: float = 0.0,
           degrees: float = 2.0, warmth: float = 0.1, light: float = 225.0,
           exposure: float = 1.02) -> Scene:
    """One card alone on a table."""
    wide = PICTURES[card].wide
    return Scene(file, (Laid(card, (4, -6), degrees),), table,
                 View(BROAD if wide else TALL, 1430 if wide else 1160, tilt, lean), warmth, light,
                 0.3, exposure, seed=seed, quality=75, noise=0.005)


def scan(file: str, card: str, seed: int = 1) -> Scene:
    """A card on the scanner, already cropped."""
    return Scene(file, (Laid(card),), view=View(PICTURES[card].size), scan=True, seed=seed,
                 quality=82)


def pocket_page(file: str, cards: dict[tuple[int, int], str], table: str, seed: int) -> Scene:
    """Cards by (column, row) in a nine-pocket page; the other pockets are empty."""
    rng = np.random.default_rng(seed)
    laid = []
    for (column, row), name in sorted(cards.items()):
        x, y = pocket_middle(column, row)
        laid.append(Laid(name, (x + rng.uniform(-14, 14), y + rng.uniform(0, 10)),
                         round(float(rng.uniform(-0.7, 0.7)), 2)))
    return Scene(file, tuple(laid), table, View((2040, 2500), 3050, 5, 0), -0.1, 235, 0.24, 1.04,
                 seed=seed, quality=76, noise=0.0045, sleeved=True)


WEEK = ("window-cat", "window-lamp", "window-moth", "window-seedlings", "window-reader",
        "window-boat", "window-bird")
POCKETS = ((0, 0), (1, 0), (2, 0), (0, 1), (1, 1), (0, 2), (2, 2))

FIRST: tuple[Scene, ...] = (
    Scene("night-heron.jpg", (Laid("night-heron", (14, -8), 3.5),), "cutting mat",
          View(TALL, 1130, 11, 4), -0.15, 230, 0.28, 1.02, seed=11),
    Scene("night-heron-back.jpg", (Laid("night-heron", (-10, 6), -2.2, "back"),), "cutting mat",
          View(TALL, 1180, 7, 350), -0.1, 230, 0.28, 1.0, seed=12),
    Scene("river-fox.png", (Laid("river-fox"),), view=View((1050, 750)), scan=True),
    Scene("blue-teapot.jpg", (Laid("blue-teapot", (10, 12), -4.0),), "painted board",
          View(TALL, 1180, 13, 10), 0.18, 205, 0.34, 1.02, seed=14),
    Scene("hill-village.webp", (Laid("hill-village", (-6, 10), 2.4),), "pale paper",
          View(BROAD, 1420, 9, 355), 0.1, 320, 0.3, 1.0, seed=15),
    Scene("three-by-halvard.jpg", (Laid("lighthouse", (-445, -430), -3.0),
                                   Laid("hawk-moth", (440, -405), 2.2),
                                   Laid("last-tram", (12, 640), 1.2)), "slate",
          View((1500, 2000), 2040, 6, 0), -0.35, 240, 0.34, 1.05, seed=16),
    Scene("two-boats.jpg", (Laid("two-boats", (8, -6), -2.8),), "oak",
          View(BROAD, 1440, 14, 352), 0.35, 215, 0.3, 1.02, seed=17, stored="sideways"),
    Scene("fern-and-hen.jpg", (Laid("fern", (-455, 8), 1.8), Laid("speckled-hen", (452, -10),
                                                                  -2.6)),
          "linen", View(BROAD, 2020, 10, 6), 0.12, 225, 0.3, 1.02, seed=18),
    Scene("harbour.jpg", (Laid("harbour", (-8, 4), 4.2),), "walnut",
          View(BROAD, 1440, 12, 14), 0.3, 310, 0.32, 1.05, seed=19),
    Scene("moon-over-allotments.jpg", (Laid("moon-over-allotments"),), view=View((750, 1050)),
          scan=True),
    Scene("estuary.heic", (Laid("estuary", (4, 10), -3.4),), "felt",
          View(BROAD, 1430, 8, 340), 0.0, 200, 0.26, 1.04, seed=21),
    Scene("three-pears.jpg", (Laid("three-pears", (-12, 4), 5.0),), "oak",
          View(TALL, 1150, 15, 20), 0.22, 235, 0.32, 1.02, seed=22),
    Scene("barn-owl.jpg", (Laid("barn-owl", (6, 10), -5.5),), "slate",
          View(TALL, 1170, 17, 345), -0.25, 220, 0.3, 1.1, seed=23),
    Scene("pass-hut.jpg", (Laid("pass-hut", (0, 0), 2.0),), "linen",
          View(BROAD, 1460, 16, 8), 0.2, 300, 0.3, 1.0, seed=24),
)

LATER: tuple[Scene, ...] = (
    scan("corner-kettle.jpg", "corner-kettle"),
    table_top("weather-tall.jpg", ("monday-rain tuesday-wind", "friday-thunder saturday-snow"),
              "slate", 41, 5, 0, -0.1, 300, 0.75, 1.05, 230),
    table_top("weather-wide.jpg", ("wednesday-fog", "thursday-sun", "sunday-clear"), "walnut", 42,
              7, 0, 0.2, 220, 0.84),
    single("haystacks.jpg", "haystacks", "linen", 43, 9, 350, -2.4, 0.2, 215),
    single("first-snow.jpg", "first-snow", "oak", 44, 12, 8, 3.0, 0.0, 300),
    single("orchard.jpg", "orchard", "pale paper", 45, 7, 12, -1.6, 0.1, 230),
    table_top("three-evenings.jpg", ("lavender-storm harvest-moon poplar-river",), "linen", 46, 6,
              5, 0.25, 220, 0.74),
    table_top("found-things.jpg", ("beetroot jay-feather", "oak-bits toadstools"), "felt", 47, 6,
              0, -0.05, 235, 0.75, 1.04, 230),
    single("stag-beetle.jpg", "stag-beetle", "painted board", 48, 13, 350, 3.6, 0.1, 210),
    single("robin.jpg", "robin-on-a-spade", "walnut", 49, 11, 15, -3.0, 0.2, 300),
    scan("whelk.jpg", "whelk"),
    table_top("from-the-garden.jpg", ("penny-bun", "snail-on-the-pot", "windfall"),
              "painted board", 50, 7, 4, 0.15, 215, 0.84),
    pocket_page("seven-windows.jpg", dict(zip(POCKETS, WEEK, strict=True)), "oak", 51),
    single("spruces.jpg", "deep-in-the-spruces", "felt", 52, 9, 8, 2.0, 0.0, 225),
    single("blue-house.jpg", "blue-house", "slate", 53, 12, 345, -2.2, 0.1, 230),
    single("persimmons.jpg", "five-persimmons", "cutting mat", 54, 14, 5, 2.6, 0.2, 220),
    table_top("jug-and-street.jpg", ("sunflowers-green-jug street-after-rain",), "pale paper", 55,
              9, 3, 0.15, 225),
    table_top("two-seas.jpg", ("boats-on-shingle", "breaker"), "walnut", 56, 8, 0, -0.1, 310,
              0.84),
    table_top("dyke-prints.jpg", ("ferns-left-out ginkgo-three-layers hogweed-evening",), "slate",
              57, 7, 4, -0.1, 225, 0.74, 1.05),
    table_top("dyke-wide.jpg", ("birds-on-the-dyke", "oak-ghosts"), "cutting mat", 58, 9, 0, 0.0,
              220, 0.84),
    table_top("blue-four.jpg", ("clocks fern-in-wind", "lagoon-weed three-feathers"), "oak", 59, 6,
              0, 0.15, 240),
    scan("paper-fish.jpg", "paper-fish"),
    single("sewing-box.jpg", "sewing-box", "linen", 60, 10, 10, -2.8, 0.15, 220),
    table_top("night-four.jpg", ("bats-out hare-and-moon", "raven-on-the-gate two-carp"),
              "linen", 61, 6, 0, 0.0, 230, 0.72, gap=230),
    single("tomcat.jpg", "tomcat", "oak", 62, 12, 12, 4.0, 0.25, 215),
    scan("snail-by-lantern.jpg", "snail-by-lantern"),
    table_top("shoebox-four.jpg", ("leaf-until-dry moths-to-a-lamp", "mushroom-ring "
                                   "snail-procession"), "cutting mat", 63, 6, 0, 0.0, 225),
    table_top("shoebox-wide.jpg", ("birds-like-notes", "regatta"), "walnut", 64, 9, 6, 0.25, 300,
              0.84),
    table_top("felt-tall.jpg", ("hummingbird kites-over-roofs llama-best-blanket",), "walnut", 65,
              7, 0, 0.2, 225, 0.74),
    table_top("felt-wide.jpg", ("cactus-pots", "lake-fish", "terraces"), "slate", 66, 7, 3, 0.05,
              220, 0.84, 1.05),
    table_top("ink-four.jpg", ("coral-garden dust-cloud", "jellyfish orchids-dropped"), "walnut",
              67, 6, 0, 0.1, 235, 0.75, gap=230),
    scan("mangroves.jpg", "mangroves"),
    single("storm-strait.jpg", "storm-over-the-strait", "felt", 68, 11, 350, -2.0, 0.0, 215),
    table_top("counted-four.jpg", ("apple-tree-sampler flour-tin-rooster",
                                   "tea-time winter-lights"), "felt", 69, 6, 0, 0.1, 225, 0.72,
              1.05, 230),
    table_top("counted-wide.jpg", ("house-sampler", "tulip-row"), "painted board", 70, 9, 8, 0.1,
              215, 0.84),
    table_top("plates-tall.jpg", ("aloe dragonfly", "dung-beetle weaver-nests"), "felt", 71, 6, 0,
              0.1, 230),
    table_top("plates-wide.jpg", ("before-light", "dry-river-bridge"), "slate", 72, 8, 0, -0.1,
              225, 0.84, 1.05),
)

SCENES: tuple[Scene, ...] = FIRST + LATER

STARTER = Scene("first-card.jpg", (Laid("first-card", (6, 4), -2.5),), "oak",
                View(TALL, 1160, 8, 12), 0.15, 225, 0.26, 1.02, seed=31)
