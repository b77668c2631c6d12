"""Art glued together of papers, cloth and small things: collage, tape, patchwork, buttons."""

import cv2
import numpy as np

from finder_training.art.colours import (
    blank,
    dark_ink,
    done,
    one_of,
    palette,
    paper,
    ramp,
    through,
    white,
)
from finder_training.art.motifs import any_motif, draw
from finder_training.art.strokes import blob, drops, field, path, torn_box
from finder_training.noise import Random, speckle


def swatch(width: int, height: int, rng: Random) -> np.ndarray:
    """A piece of some paper or cloth, uint8 [height, width, 3]: what pieces are cut from."""
    one, two, three = palette(rng, 3)
    two = white(rng) if rng.random() < 0.3 else two
    made, roll = blank(width, height, one), int(rng.integers(8))
    step = max(int(rng.uniform(4, 26)), 3)
    if roll == 0:
        made[:, np.arange(width) // step % 2 > 0] = two
    elif roll == 1:
        rows, columns = np.arange(height)[:, None] % step, np.arange(width) % step
        size = step * rng.uniform(0.2, 0.45)
        made[(rows - step / 2) ** 2 + (columns - step / 2) ** 2 < size**2] = two
    elif roll == 2:
        bands = [(np.arange(n) // step % 2 > 0) for n in (height, width)]
        made[bands[0]] = (one + two) / 2
        made[:, bands[1]] = made[:, bands[1]] // 2 + (two / 2).astype(np.uint8)
    elif roll == 3:
        printed_page(made, rng)
    elif roll == 4:
        return through(ramp([one, two, three], rng), field(width, height, 3, rng, 3), 0.6)
    elif roll == 5:
        for at in rng.uniform(0, 1, (min(width * height // (step * step * 3) + 1, 20), 2)):
            draw(made, any_motif(rng), at * (width, height), step * 0.6, [two, three],
                 rng.uniform(0, 6))
    return made


def printed_page(card: np.ndarray, rng: Random) -> None:
    """Lines of a book, staves of music, a map or squared paper, over a uint8 card in place."""
    height, width = card.shape[:2]
    card[:] = done(white(rng) * rng.uniform(0.82, 1))
    pen, roll = tuple(int(v) for v in rng.uniform(20, 130, 1).repeat(3)), rng.random()
    gap = max(int(rng.uniform(5, 14)), 4)
    if roll < 0.45:
        for y in range(gap, height - gap // 2, gap):
            shown = np.zeros(width, bool)
            right = int(width * (0.95 if rng.random() < 0.8 else rng.uniform(0.2, 0.95)))
            shown[int(width * 0.05) : right] = True
            words = np.cumsum(rng.integers(gap, 5 * gap, max(width // (3 * gap), 1)))
            shown[np.minimum(words[:, None] + np.arange(max(gap // 2, 2)), width - 1)] = False
            shown &= speckle(width, 1, rng)[0, :, 0] > -0.8
            card[y : y + max(gap // 3, 1), shown] = pen
    elif roll < 0.65:
        for y in range(gap, height, gap * 5):
            for line in range(5):
                card[min(y + line * gap // 2, height - 1), 2:-2] = pen
            for x in rng.uniform(0.03, 0.97, 10) * width:
                at = (int(x), y + int(rng.integers(0, 5)) * gap // 2)
                cv2.circle(card, at, max(gap // 4, 1), pen, -1, cv2.LINE_AA)
                cv2.line(card, (at[0] + gap // 4, at[1]), (at[0] + gap // 4, at[1] - gap), pen, 1)
    elif roll < 0.85:
        for count, colour, thick in ((4, (190, 205, 225), 5), (8, pen, 1), (4, (215, 160, 70), 2)):
            for _ in range(count):
                start = rng.uniform(0, 1, 2) * (width, height)
                line = path(start, rng.uniform(0, 6.3), width, 0.15, rng).astype(np.int32)
                cv2.polylines(card, [line], False, colour, thick, cv2.LINE_AA)
    else:
        card[::gap], card[:, ::gap] = (170, 195, 215), (170, 195, 215)


def glued(card: np.ndarray, outline: np.ndarray, rng: Random, rim: float = 0.0,
          shadow: float = 0.0, opacity: float = 1.0) -> None:
    """A piece of this outline with a white torn rim of `rim` px and a shadow, on a uint8 card
    in place."""
    x, y, wide, tall = cv2.boundingRect(outline)
    pad = int(rim + shadow * 2) + 3
    box = (slice(max(y - pad, 0), y + tall + pad), slice(max(x - pad, 0), x + wide + pad))
    part = card[box]
    if part.size == 0:
        return
    mask = np.zeros(part.shape[:2], np.uint8)
    cv2.fillPoly(mask, [outline - (box[1].start, box[0].start)], 255, cv2.LINE_AA)
    made = part.astype(np.float32)
    if shadow > 0.3:
        move = np.array([[1, 0, shadow * 0.7], [0, 1, shadow]], np.float32)
        cast = cv2.warpAffine(cv2.GaussianBlur(mask, (0, 0), shadow), move, mask.shape[::-1])
        made *= (1 - cast.astype(np.float32) * np.float32(rng.uniform(0.2, 0.6) / 255))[..., None]
    share = mask.astype(np.float32)[..., None] / 255
    if rim > 0.5:
        made += (np.float32(rng.uniform(225, 252)) - made) * share
        inner = cv2.blur(mask, (2 * int(rim) + 1,) * 2).astype(np.float32) / 255
        rough = speckle(mask.shape[1], mask.shape[0], rng)[..., 0] * 0.08
        share = np.clip((inner - 0.65 + rough) * 12, 0, 1)[..., None] * share
    piece = swatch(part.shape[1], part.shape[0], rng)
    part[:] = made + (piece - made) * (share * np.float32(opacity))


def collage(width: int, height: int, rng: Random) -> np.ndarray:
    """Torn or cut papers over one another."""
    card = swatch(width, height, rng) if rng.random() < 0.5 else blank(width, height, paper(rng))
    torn = rng.random() < 0.6
    rim, shadow = width * rng.uniform(0.006, 0.02) * torn, rng.uniform(0, 3)
    for _ in range(int(rng.integers(2, 7))):
        at, size = rng.uniform(0, 1, 2) * (width, height), width * rng.uniform(0.12, 0.45)
        outline = blob(at, size, rng, 0.3, 40)
        if rng.random() < 0.6:
            half = size * rng.uniform(0.4, 1.3, 2)
            box = (*(at - half), *(at + half))
            outline = torn_box(box, size * (0.06 if torn else 0.15), rng, 7 if torn else 999)
        glued(card, outline, rng, rim, shadow)
    return card


def on_a_page(width: int, height: int, rng: Random) -> np.ndarray:
    """A book's, music's or map's page under a figure or a wash."""
    card = blank(width, height, white(rng))
    printed_page(card, rng)
    if rng.random() < 0.4:
        wash = np.clip(field(width, height, 3, rng, 3) * 6 + rng.uniform(-1, 1), 0, 1)[..., None]
        card = done(card * (1 - wash * (1 - palette(rng, 1)[0] / 255).astype(np.float32)))
    for _ in range(int(rng.choice([0, 1, 1, 1, 3]))):
        at = rng.uniform(0.25, 0.75, 2) * (width, height)
        pen = dark_ink(rng) if rng.random() < 0.6 else None
        draw(card, any_motif(rng), at, width * rng.uniform(0.15, 0.45), palette(rng, 4),
             rng.normal() * 0.2, pen, 2)
    return card


def tapes(width: int, height: int, rng: Random) -> np.ndarray:
    """Strips of patterned tape across the card, along an edge, or all over."""
    card = blank(width, height, paper(rng)) if rng.random() < 0.7 else swatch(width, height, rng)
    count, slant = int(rng.choice([1, 1, 2, 3, 6, 9])), rng.normal() * 0.1
    across, same = rng.random() < 0.5, rng.random() < 0.6
    for i in range(count):
        wide = width * rng.uniform(0.05, 0.18)
        share = rng.choice([0.0, 1.0, rng.random()]) if count < 4 else (i + 0.5) / count
        turn = slant if same else rng.normal() * 0.5
        way = np.array([np.cos(turn), np.sin(turn)]) if across else np.array(
            [-np.sin(turn), np.cos(turn)])
        middle = np.array([0.5, share] if across else [share, 0.5]) * (width, height)
        reach = way * height * rng.choice([0.25, 0.7, 0.7])
        side = np.array([-way[1], way[0]]) * wide
        outline = np.array([middle - reach - side, middle + reach - side, middle + reach + side,
                            middle - reach + side]).astype(np.int32)
        opacity = 1.0 if rng.random() < 0.6 else rng.uniform(0.4, 0.8)
        glued(card, outline, rng, 0, rng.uniform(0, 1.5), opacity)
    if rng.random() < 0.5:
        draw(card, any_motif(rng), rng.uniform(0.3, 0.7, 2) * (width, height),
             width * rng.uniform(0.1, 0.3), palette(rng, 3), 0, dark_ink(rng))
    return card


def stamps(width: int, height: int, rng: Random) -> np.ndarray:
    """Small perforated pictures stuck on, straight or askew, perhaps with a postmark."""
    card = swatch(width, height, rng) if rng.random() < 0.3 else blank(width, height, paper(rng))
    for _ in range(int(rng.integers(1, 7))):
        wide, tall = width * rng.uniform(0.14, 0.32), width * rng.uniform(0.14, 0.36)
        scrap = blank(int(wide) + 4, int(tall) + 4, white(rng))
        inner = scrap[5:-5, 5:-5]
        if inner.size:
            inner[:] = swatch(inner.shape[1], inner.shape[0], rng)
            draw(inner, any_motif(rng), (inner.shape[1] / 2, inner.shape[0] / 2), wide * 0.25,
                 palette(rng, 3))
        edge = np.ones(scrap.shape[:2], np.uint8) * 255
        for x in range(2, edge.shape[1], 5):
            edge[[0, 1, -2, -1], x : x + 2] = 0
        for y in range(2, edge.shape[0], 5):
            edge[y : y + 2, [0, 1, -2, -1]] = 0
        at = rng.uniform(0.15, 0.85, 2) * (width, height)
        put_turned(card, scrap, edge, at, rng.normal() * 12, rng)
    if rng.random() < 0.4:
        at = (rng.uniform(0.2, 0.8, 2) * (width, height)).astype(int)
        for size in (0.13, 0.1):
            cv2.circle(card, at.tolist(), int(width * size), dark_ink(rng), 1, cv2.LINE_AA)
    return card


def put_turned(card: np.ndarray, scrap: np.ndarray, mask: np.ndarray, at: np.ndarray,
               degrees: float, rng: Random) -> None:
    """A small picture turned about its middle and laid at `at` px with a shadow, in place."""
    tall, wide = mask.shape
    onto = cv2.getRotationMatrix2D((wide / 2, tall / 2), degrees, 1.0)
    onto[:, 2] += at - (wide / 2, tall / 2)
    size = (card.shape[1], card.shape[0])
    share = cv2.warpAffine(mask, onto, size, flags=cv2.INTER_LINEAR)
    left, top, across, down = cv2.boundingRect(share)
    if across < 2 or down < 2:
        return
    box = (slice(max(top - 4, 0), top + down + 6), slice(max(left - 4, 0), left + across + 6))
    drawn, share = cv2.warpAffine(scrap, onto, size)[box], share[box].astype(np.float32) / 255
    cast = cv2.GaussianBlur(share, (0, 0), rng.uniform(0.6, 2.5))
    cast = cast * np.float32(rng.uniform(0, 0.5))
    made = card[box] * (1 - cast)[..., None]
    card[box] = made + (drawn - made) * share[..., None]


def fabric(width: int, height: int, rng: Random) -> np.ndarray:
    """Scraps of cloth with a weave, sewn on with stitches."""
    card = swatch(width, height, rng)
    for _ in range(int(rng.integers(1, 5))):
        size = width * rng.uniform(0.15, 0.4)
        at = rng.uniform(0.2, 0.8, 2) * (width, height)
        half = size * rng.uniform(0.6, 1.2, 2)
        outline = torn_box((*(at - half), *(at + half)), size * 0.04, rng)
        glued(card, outline, rng, 0, rng.uniform(0.5, 2.5))
        seam = ((outline - at) * 0.9 + at).astype(np.int32)
        _stitched(card, seam, one_of(rng, palette(rng, 2)), width * 0.03)
    weave = np.sin(np.arange(width) * 2.1) + np.sin(np.arange(height) * 2.1)[:, None]
    weave = weave[..., None] * rng.uniform(2, 9) + speckle(width, height, rng) * 4
    return done(card + weave)


def _stitched(card: np.ndarray, line: np.ndarray, thread: tuple, long: float) -> None:
    """Dashes along a closed line, in place."""
    ring = np.vstack([line, line[:1]]).astype(float)
    far = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    for at in np.arange(0, far[-1] - long, max(long * 1.7, 3)):
        ends = [[int(np.interp(v, far, ring[:, k])) for k in (0, 1)] for v in (at, at + long)]
        cv2.line(card, ends[0], ends[1], thread, max(int(long / 4), 1), cv2.LINE_AA)


def buttons(width: int, height: int, rng: Random) -> np.ndarray:
    """Buttons, sequins, gems or beads glued on, alone, in a ring or strewn."""
    card = swatch(width, height, rng) if rng.random() < 0.4 else blank(width, height, paper(rng))
    colours, count = palette(rng, 4), int(rng.choice([3, 6, 15, 40]))
    size, ringed = width * rng.uniform(0.1, 0.5) / np.sqrt(count) * 1.4, rng.random() < 0.3
    for i in range(count):
        turn = i * 2 * np.pi / count
        at = rng.uniform(0.08, 0.92, 2) if not ringed else np.array(
            [0.5 + 0.3 * np.cos(turn), 0.5 + 0.25 * np.sin(turn)])
        x, y = (at * (width, height)).astype(int).tolist()
        own, colour = max(int(size * rng.uniform(0.5, 1) / 2), 2), colours[int(rng.integers(4))]
        cv2.circle(card, (x + 1, y + 2), own, [v // 2 for v in map(int, colour)], -1, cv2.LINE_AA)
        cv2.circle(card, (x, y), own, colour.tolist(), -1, cv2.LINE_AA)
        cv2.circle(card, (x, y), int(own * 0.7), (colour * 0.8).tolist(), 1, cv2.LINE_AA)
        if own > 5:
            for dx, dy in ((-1, -1), (1, -1), (-1, 1), (1, 1)):
                hole = (x + dx * own // 4, y + dy * own // 4)
                cv2.circle(card, hole, max(own // 9, 1), (colour * 0.3).tolist(), -1, cv2.LINE_AA)
        cv2.circle(card, (x - own // 3, y - own // 3), max(own // 6, 1), (255, 255, 250), -1)
    return card


def cut_outs(width: int, height: int, rng: Random) -> np.ndarray:
    """Figures cut from papers with scissors, with a shadow, on a plain or printed ground."""
    card = swatch(width, height, rng) if rng.random() < 0.5 else blank(width, height, paper(rng))
    for _ in range(int(rng.integers(1, 6))):
        at, size = rng.uniform(0.2, 0.8, 2) * (width, height), width * rng.uniform(0.12, 0.42)
        colour = palette(rng, 1)[0]
        cast = [colour * 0 + rng.uniform(40, 110)]
        motif, turn = any_motif(rng), rng.normal() * 0.4
        draw(card, motif, at + rng.uniform(0.5, 4, 2), size, cast, turn)
        if rng.random() < 0.4:
            draw(card, motif, at, size, [], turn, (250, 250, 248), max(int(size * 0.15), 1))
        draw(card, motif, at, size, [colour, *palette(rng, 2)], turn)
    if rng.random() < 0.3:
        drops(card, int(rng.integers(10, 60)), width * 0.025, palette(rng, 3), rng)
    return card


PAPERED = (collage, collage, on_a_page, tapes, stamps, fabric, buttons, cut_outs)
"""What is glued or sewn together."""
