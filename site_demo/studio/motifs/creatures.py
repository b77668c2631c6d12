"""Creatures: birds, fish, insects, a cat, a hare, a snail."""

import numpy as np

from ..cartoon import Motif, piece
from ..line import blade, curve, ellipse, ribbon, rotated


def mirror(points):
    """The same outline left to right."""
    return np.asarray(points, float) * [-1, 1]


def closed(*points):
    """A smooth closed outline through points."""
    return curve(points, True)


def bird(body: str, wing: str, breast: str, beak: str) -> Motif:
    """A small bird on its feet, looking to the right."""
    return [
        piece(wing, blade((-60, 10), (-150, 52), 34), angle=25),
        piece(beak, ribbon([(-6, 60), (-10, 92)], 4), ribbon([(14, 60), (14, 92)], 4), line=1),
        piece(body, closed((-80, 20), (-50, -20), (0, -44), (36, -70), (70, -78), (96, -58),
                           (92, -30), (70, 10), (40, 48), (-10, 62), (-56, 48)), angle=-30),
        piece(breast, closed((92, -34), (72, 8), (40, 46), (0, 58), (20, 20), (48, -14)),
              angle=60),
        piece(beak, [(94, -62), (124, -50), (92, -46)], shade=0),
        piece(wing, closed((-96, 34), (-40, -14), (20, -22), (30, 8), (-16, 36)), angle=20),
        *[piece(body, ribbon(curve([(-70 + 22 * k, 24 - 3 * k), (-30 + 18 * k, 14 - 5 * k),
                                    (8 + 6 * k, 2 - 5 * k)]), 3), shade=0, line=0)
          for k in range(3)],
        piece("#17181c", ellipse(76, -56, 5.5, 5.5), shade=0),
        piece("#ffffff", ellipse(78, -58, 1.8, 1.8), shade=0, line=0),
    ]


def fish(body: str, fin: str, scale: str, belly: str) -> Motif:
    """A fish swimming to the right, with rows of scales."""
    rows = [ribbon(ellipse(x + (row % 2) * 12, -30 + 15 * row, 12, 12, 0, 95, 265), 2.6)
            for row in range(5) for x in range(-52, 34, 24)
            if abs(-30 + 15 * row) < 40 - abs(x + 8) * 0.36]
    return [
        piece(fin, closed((-96, 0), (-130, -46), (-158, -52), (-140, 0), (-158, 50), (-130, 44)),
              angle=0),
        piece(fin, closed((-48, -34), (-30, -74), (30, -70), (44, -40)), angle=70),
        piece(fin, closed((-24, 34), (-34, 62), (6, 58), (20, 40)), angle=110),
        piece(body, closed((-110, 0), (-60, -32), (0, -50), (60, -42), (104, -10), (110, 6),
                           (84, 28), (30, 46), (-40, 34)), angle=0),
        piece(belly, closed((-90, 8), (-30, 20), (40, 24), (100, 10), (84, 28), (30, 45),
                            (-40, 33)), angle=5),
        piece(scale, *rows, shade=0, line=0),
        piece(fin, ribbon(ellipse(40, 0, 16, 36, 0, -90, 90), 5), shade=0, line=1),
        piece(fin, closed((34, 10), (6, 26), (-4, 14), (16, 2)), angle=20),
        piece("#ffffff", ellipse(76, -12, 11, 11), shade=0),
        piece("#15171c", ellipse(78, -12, 6, 6), shade=0, line=0),
    ]


def moth(wing: str, band: str, body: str, spot: str) -> Motif:
    """A moth with open wings, head up."""
    fore = closed((8, -24), (60, -70), (130, -92), (146, -72), (118, -8), (60, 22), (12, 14))
    hind = closed((10, 8), (70, 18), (96, 50), (70, 92), (30, 84), (8, 40))
    bands = [ribbon(curve([(66, -66), (82, -30), (66, 16)]), 13),
             ribbon(curve([(114, -84), (122, -50), (104, -8)]), 9),
             ribbon(curve([(30, 50), (56, 62), (90, 44)]), 10)]
    feeler = ribbon(curve([(4, -46), (24, -78), (52, -96)]), 4)
    made: Motif = []
    for flip in (np.asarray, mirror):
        made += [piece(wing, flip(hind), angle=40), piece(wing, flip(fore), angle=-30),
                 piece(band, *[flip(one) for one in bands], shade=0, line=0),
                 piece(spot, flip(ellipse(46, -32, 9, 9)), flip(ellipse(56, 42, 8, 8)), shade=0),
                 piece(body, flip(feeler), shade=0, line=0)]
    made += [piece(body, closed((-13, -30), (0, -46), (13, -30), (14, 20), (8, 78), (0, 94),
                                (-8, 78), (-14, 20)), angle=90),
             *[piece(band, ribbon([(-11, y), (0, y + 4), (11, y)], 4), shade=0, line=0)
               for y in (26, 44, 62)]]
    return made


def beetle(shell: str, dark: str, gleam: str, horns: bool = True) -> Motif:
    """A beetle from above, head up; `horns` for a stag beetle's jaws."""
    legs = []
    for flip in (np.asarray, mirror):
        for start, knee, foot in (((40, -18), (84, -48), (98, -86)), ((48, 20), (98, 18),
                                  (124, 44)), ((42, 62), (84, 90), (92, 136))):
            legs.append(flip(ribbon(curve([start, knee, foot]), 8, (1, 0.4))))
        if horns:
            legs.append(flip(ribbon(curve([(16, -86), (48, -116), (44, -152), (16, -160)]), 11,
                                    (1, 0.3))))
            legs.append(flip(blade((46, -128), (22, -136), 9)))
    half = closed((2, -22), (40, -22), (58, 20), (50, 78), (20, 114), (2, 118))
    made = [piece(dark, *legs, shade=0.3),
            piece(dark, closed((-30, -62), (-22, -94), (22, -94), (30, -62)), angle=90),
            piece(dark, closed((-48, -26), (-46, -60), (0, -68), (46, -60), (48, -26)), angle=0)]
    for flip in (np.asarray, mirror):
        made += [piece(shell, flip(half), angle=80, shade=0.8),
                 piece(dark, *[flip(ribbon(curve([(k, -14), (k * 1.25, 40), (k * 0.8, 96)]), 2))
                               for k in (14, 28, 41)], shade=0, line=0)]
    made.append(piece(gleam, closed((-36, -8), (-26, -14), (-34, 30), (-42, 36)),
                      ellipse(-22, -50, 12, 4, -8), shade=0, line=0))
    return made


def snail(shell: str, whorl: str, body: str) -> Motif:
    """A snail going to the right."""
    turn = np.linspace(0, 5.2 * np.pi, 150)
    grow = 60 * (1 - turn / turn[-1]) ** 0.9 + 2
    spiral = np.stack([-18 - grow * np.cos(turn + 0.6), -44 - grow * np.sin(turn + 0.6)], 1)
    return [
        piece(body, closed((-124, 40), (-60, 20), (20, 14), (60, -6), (84, -44), (112, -40),
                           (118, -14), (96, 26), (60, 44), (-40, 46)), angle=4),
        piece(body, ribbon(curve([(96, -40), (104, -70), (120, -92)]), 5),
              ribbon(curve([(108, -36), (124, -56), (146, -66)]), 5), shade=0.2, line=1),
        piece(body, ellipse(121, -94, 5.5, 5.5), ellipse(147, -67, 5.5, 5.5), shade=0.2),
        piece(shell, ellipse(-18, -40, 68, 64), angle=30, shade=0.9),
        piece(whorl, ribbon(spiral, np.linspace(9, 3, 150)), shade=0, line=0),
    ]


def cat(fur: str, inner: str) -> Motif:
    """A cat sitting, seen from behind, its tail round to the right."""
    return [
        piece(fur, ribbon(curve([(30, 92), (92, 98), (118, 70), (96, 48)]), 20, (1, 0.6))),
        piece(fur, closed((-58, 96), (-66, 40), (-44, -20), (-28, -44), (28, -44), (44, -20),
                          (66, 40), (58, 96), (0, 104)), angle=80),
        piece(fur, closed((-44, -60), (-46, -92), (-40, -118), (-18, -96), (18, -96), (40, -118),
                          (46, -92), (44, -60), (26, -34), (-26, -34)), angle=0),
        piece(inner, [(-38, -106), (-24, -92), (-38, -86)], [(38, -106), (24, -92), (38, -86)],
              shade=0, line=0),
    ]


def hare(fur: str, pale: str, dark: str) -> Motif:
    """A hare sitting up, looking to the right."""
    return [
        piece(pale, ellipse(-82, 82, 22, 18)),
        piece(dark, closed((8, -100), (-28, -160), (-44, -206), (-24, -210), (6, -168),
                           (28, -112)), angle=60),
        piece(fur, closed((-78, 96), (-90, 40), (-62, -16), (-14, -50), (8, -70), (44, -52),
                          (48, 0), (46, 60), (58, 96)), angle=70),
        piece(fur, closed((-4, -84), (20, -112), (54, -112), (88, -84), (92, -66), (70, -48),
                          (30, -46), (2, -56)), angle=10),
        piece(fur, closed((20, -102), (6, -160), (10, -212), (28, -206), (42, -160),
                          (42, -106)), angle=85),
        piece(dark, blade((30, -112), (20, -196), 12), shade=0, line=0),
        piece(pale, closed((46, -30), (48, 10), (46, 60), (28, 40), (26, -10)), angle=85),
        piece(fur, closed((-78, 98), (-84, 50), (-40, 26), (4, 50), (14, 98)), angle=40,
              shade=0.8),
        piece(fur, ribbon(curve([(34, 20), (42, 60), (40, 98), (66, 100)]), 20), angle=85),
        piece(dark, ellipse(56, -84, 8, 9), ellipse(90, -72, 5, 4), shade=0),
        piece(pale, ellipse(58, -87, 2.5, 2.5), shade=0, line=0),
    ]


def raven(black: str, sheen: str) -> Motif:
    """A raven standing, looking to the right."""
    feathers = [blade((-20 + 10 * k, -10 + 12 * k), (-120 + 8 * k, 60 + 10 * k), 15)
                for k in range(4)]
    return [
        piece(black, blade((-70, 40), (-168, 104), 44)),
        piece(black, ribbon([(-10, 70), (-6, 116), (18, 118)], 8),
              ribbon([(20, 66), (26, 116), (50, 118)], 8)),
        piece(black, closed((-96, 54), (-70, 4), (-20, -36), (30, -84), (66, -104), (96, -90),
                            (100, -66), (84, -20), (60, 40), (10, 76), (-50, 74)), angle=-30),
        piece(black, closed((88, -96), (128, -90), (152, -66), (120, -70), (92, -66))),
        piece(sheen, *feathers, angle=30, shade=0.3),
        piece(sheen, *[ribbon(curve([(50 + 4 * k, -60 + 14 * k), (64 + 2 * k, -48 + 16 * k)]), 4)
                       for k in range(5)], shade=0, line=0),
        piece("#f4f1e6", ellipse(80, -84, 6, 6), shade=0),
        piece("#101114", ellipse(81, -84, 3.4, 3.4), shade=0, line=0),
    ]


def bat(fur: str, wing: str, bone: str) -> Motif:
    """A bat in flight, seen from the front."""
    skin = closed((10, -20), (50, -60), (110, -76), (168, -40), (150, -10), (140, 26), (112, 4),
                  (92, 40), (66, 14), (44, 48), (18, 40))
    bones = [ribbon(curve([(14, -16), (56, -54), (104, -70)]), 6),
             *[ribbon(curve([(104, -70), tip]), 3) for tip in ((164, -38), (138, 22), (90, 36))]]
    made: Motif = []
    for flip in (np.asarray, mirror):
        made += [piece(wing, flip(skin), angle=60),
                 piece(bone, *[flip(one) for one in bones], shade=0, line=0),
                 piece(fur, flip([(6, -40), (28, -84), (32, -44)]))]
    made += [piece(fur, closed((-24, -20), (0, -34), (24, -20), (26, 30), (0, 66), (-26, 30)),
                   angle=90),
             piece(fur, closed((-32, -36), (-20, -60), (20, -60), (32, -36), (18, -10),
                               (-18, -10)), angle=0),
             piece("#15130f", ellipse(-12, -36, 5, 5), ellipse(12, -36, 5, 5), shade=0),
             piece(bone, ellipse(0, -22, 5, 3.5), shade=0)]
    return made


def llama(wool: str, saddle: str, stripe: str, hoof: str) -> Motif:
    """A llama in a woven blanket, facing right."""
    legs = [[(x, 40), (x + 22, 40), (x + 20, 128), (x + 2, 128)] for x in (-78, -48, 20, 48)]
    feet = [[(x + 1, 118), (x + 21, 118), (x + 22, 132), (x, 132)] for x in (-78, -48, 20, 48)]
    return [
        piece(wool, *legs, angle=90), piece(hoof, *feet, shade=0),
        piece(wool, closed((-96, -20), (-70, -44), (20, -44), (60, -40), (84, 0), (74, 50),
                           (0, 62), (-84, 54), (-108, 16)), angle=0),
        piece(wool, closed((44, -10), (56, -70), (60, -128), (84, -132), (92, -70), (90, 10)),
              angle=85),
        piece(wool, closed((58, -120), (66, -150), (96, -150), (126, -132), (124, -114),
                           (90, -106)), angle=5),
        piece(wool, closed((66, -144), (62, -180), (76, -184), (82, -148))),
        piece(saddle, closed((-62, -50), (10, -50), (22, -10), (16, 34), (-66, 34), (-72, -8)),
              angle=90),
        *[piece(stripe, ribbon(curve([(-72 + k, y), (-26, y + 5), (20 - k, y)]), 8), shade=0)
          for k, y in ((2, -26), (0, -2), (2, 20))],
        piece("#201a18", ellipse(98, -134, 4.5, 4.5), ellipse(122, -124, 3, 2.4), shade=0),
        piece(stripe, ellipse(70, -168, 7, 7), ellipse(-108, 6, 9, 12), shade=0.4),
    ]


def hummingbird(body: str, wing: str, throat: str, beak: str) -> Motif:
    """A hummingbird in the air, its beak to the right."""
    plumes = [rotated(blade((0, 0), (-118, -24), 26), turn) + (0, -6) for turn in (0, 24, 48)]
    return [
        piece(wing, *plumes, angle=20),
        piece(body, blade((-30, 34), (-104, 92), 24), blade((-24, 40), (-80, 112), 20), angle=50),
        piece(body, closed((-44, 36), (-20, -6), (24, -40), (54, -56), (78, -46), (76, -22),
                           (44, 14), (0, 42)), angle=-40),
        piece(throat, closed((78, -34), (72, -14), (44, 14), (34, -8), (56, -28)), angle=60),
        piece(beak, blade((74, -44), (164, -58), 8), shade=0, line=1),
        piece("#14161a", ellipse(62, -42, 5, 5), shade=0),
        piece(wing, rotated(blade((0, 0), (-34, -118), 30), 12) + (14, -18), angle=70),
    ]


def rooster(body: str, tail: str, comb: str, leg: str) -> Motif:
    """A rooster facing right, tail high."""
    plumes = [ribbon(curve([(-40, 0), (-90, -40 - 14 * k), (-128 + 8 * k, -20 - 18 * k),
                            (-140 + 14 * k, 30 - 26 * k)]), 16, (1, 0.4)) for k in range(4)]
    return [
        piece(tail, *plumes, angle=30),
        piece(leg, ribbon([(-6, 60), (-4, 112), (24, 114)], 8),
              ribbon([(20, 56), (26, 112), (52, 114)], 8), shade=0),
        piece(body, closed((-60, -6), (-10, -6), (40, -48), (56, -96), (84, -98), (92, -60),
                           (76, 10), (30, 64), (-34, 56)), angle=-20),
        piece(comb, closed((54, -96), (46, -122), (60, -116), (64, -134), (76, -118), (88, -130),
                           (90, -98)), ellipse(92, -52, 9, 16), shade=0.3),
        piece(leg, [(90, -84), (116, -76), (92, -68)], shade=0),
        piece(tail, closed((-44, 8), (0, -2), (30, 16), (6, 44), (-30, 40))),
        piece("#14161a", ellipse(78, -82, 4.5, 4.5), shade=0),
    ]
