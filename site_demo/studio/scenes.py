"""Which photograph shows which cards, and how it was taken."""

from .camera import View
from .photograph import Laid, Scene

TALL = (1200, 1600)
BROAD = (1600, 1200)

SCENES: tuple[Scene, ...] = (
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

STARTER = Scene("first-card.jpg", (Laid("first-card", (6, 4), -2.5),), "oak",
                View(TALL, 1160, 8, 12), 0.15, 225, 0.26, 1.02, seed=31)
