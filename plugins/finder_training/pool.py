"""Scenes drawn on every core while GPUs train."""

import queue
import threading
from typing import TYPE_CHECKING

import cv2
import numpy as np
import torch
from torch import multiprocessing

from finder_training.samples import LONG, MAP, MOST, Scenes
from finder_training.stage import UNASKED

if TYPE_CHECKING:
    from finder_training.scenes import Scene

SLOTS = 256
"""Scenes that a belt holds at most: some 450 MB of shared memory."""

PARTS = 0.35
"""How often a part of a card is shown to the refiner as what is no card."""

GLINTING = 0.35
"""How often the film of the pages that the witness is shown glints."""

PATIENCE = 1.0
"""Seconds after which a pool that waits for a scene looks whether it is closed."""


def picture_bank() -> list[np.ndarray]:
    """Photographs that scientific packages bring along: texture for grounds and art, at
    training time only. Empty where those packages are not installed."""
    found = []
    try:
        from skimage import data
        for name in ("astronaut", "chelsea", "coffee", "rocket", "brick", "grass", "gravel",
                     "camera", "colorwheel", "page", "text", "immunohistochemistry", "retina"):
            try:
                found.append(np.asarray(getattr(data, name)()))
            except Exception:
                continue
    except ImportError:
        pass
    try:
        from sklearn.datasets import load_sample_images
        found.extend(load_sample_images().images)
    except ImportError:
        pass
    return [np.ascontiguousarray(p[..., None].repeat(3, 2) if p.ndim == 2 else p[..., :3])
            for p in found]


class Belt:
    """Shared memory on which drawn scenes travel to one training process."""

    def __init__(self) -> None:
        context = multiprocessing.get_context("spawn")
        self.block = {name: part.share_memory_() for name, part in
                      _block(SLOTS, torch.device("cpu")).items()}
        self.free, self.full = context.Queue(), context.Queue()
        for slot in range(SLOTS):
            self.free.put(slot)

    def put(self, parts: dict[str, np.ndarray]) -> None:
        """Lay a scene on it, once there is room."""
        slot = self.free.get()
        for name, part in parts.items():
            self.block[name][slot] = torch.from_numpy(part)
        self.full.put(slot)

    def take(self, held: dict[str, torch.Tensor], place: int) -> bool:
        """Copy a scene to a place among those held; whether one came within PATIENCE."""
        try:
            slot = self.full.get(timeout=PATIENCE)
        except queue.Empty:
            return False
        for name, part in held.items():
            part[place].copy_(self.block[name][slot])
        self.free.put(slot)
        return True


def start_drawing(
    belts: list[Belt], seed: int, workers: int, stream: int = 1, witnessed: bool = False
) -> None:
    """Begin to draw in as many processes, which end with this one; each scene goes on each belt."""
    context = multiprocessing.get_context("spawn")
    for worker in range(workers):
        chosen = (belts, seed, worker, stream, witnessed)
        context.Process(target=_draw, args=chosen, daemon=True).start()


def _draw(
    belts: list[Belt], seed: int, worker: int, stream: int, witnessed: bool
) -> None:
    cv2.setNumThreads(1)
    torch.set_num_threads(1)
    pictures = picture_bank()
    rng = np.random.default_rng([seed, worker, stream])
    while True:
        parts = any_parts(rng, stream, pictures, witnessed)
        for belt in belts:
            belt.put(parts)


def any_parts(
    rng: np.random.Generator, stream: int, pictures: list[np.ndarray] = (),
    witnessed: bool = False,
) -> dict[str, np.ndarray]:
    """Any scene of a stream as training sees it; `witnessed` as the witness does."""
    from finder_training.glints import with_glints
    from finder_training.scenes import KINDS, WITNESSED, any_kind, draw_scene

    kind = any_kind(rng, WITNESSED if witnessed else KINDS)
    scene = draw_scene(kind, int(rng.integers(2**40)), LONG, pictures, stream=stream)
    if witnessed and scene.kind == "page" and rng.random() < GLINTING:
        scene = with_glints(scene, rng)
    return _parts(scene, rng)


def _parts(scene: "Scene", rng: np.random.Generator) -> dict[str, np.ndarray]:
    """A scene as training sees it, in arrays that are as large for any scene."""
    height, width = scene.picture.shape[:2]
    picture, owner = np.zeros((3, LONG, LONG), np.uint8), np.zeros((MAP, MAP), np.uint8)
    picture[:, :height, :width] = scene.picture.transpose(2, 0, 1)
    step = LONG // MAP
    seen = scene.owner[step // 2 :: step, step // 2 :: step]
    kept = (seen <= MOST) | (seen == UNASKED)
    owner[: seen.shape[0], : seen.shape[1]] = np.where(kept, seen, 0)
    quads, facts = np.zeros((MOST, 4, 2), np.float32), np.zeros((MOST, 3), np.float32)
    count = min(len(scene.quads), MOST)
    quads[:count] = scene.quads[:count]
    facts[:count, 0], facts[:count, 1] = 1, scene.visible[:count]
    decoys = scene.decoys
    if scene.kind == "cropped":
        # Only the refiner is to see those, when it is shown the whole picture: a proposer
        # taught to see a card in them sees one in every frame.
        owner[:] = 0
    elif rng.random() < 0.3:
        frame = [[0, 0], [width, 0], [width, height], [0, height]]
        decoys = np.concatenate([[frame], decoys])
    if count and rng.random() < PARTS:
        decoys = np.concatenate([[_part(scene.quads, rng)], decoys])
    facts[:count, 2] = scene.cut[:count] & (scene.kind != "cropped")
    more = min(len(decoys), MOST - count)
    quads[count : count + more] = decoys[:more]
    facts[count : count + more, 0] = 2
    sizes = np.array([width, height], np.float32)
    return {"pictures": picture, "owner": owner, "quads": quads, "facts": facts, "sizes": sizes}


def _part(quads: np.ndarray, rng: np.random.Generator) -> np.ndarray:
    """Corners [4, 2] px of one of the cards' [n, 4, 2] px inside, or of a patch of it, of three
    to five rows of them.

    Not of a half: that is a panel, or what a card beside another looks like.
    """
    if rng.random() < 0.5:
        low = rng.uniform(0.06, 0.25, 2)
        high = 1 - (low if rng.random() < 0.6 else rng.uniform(0.06, 0.25, 2))
    else:
        count = rng.integers(3, 6, 2) if rng.random() < 0.4 else rng.integers(3, 6, 1).repeat(2)
        low = rng.integers(count) / count
        high = low + 1 / count
    shares = np.array([low, (high[0], low[1]), high, (low[0], high[1])])
    card = quads[int(rng.integers(len(quads)))]
    unit = np.float32([[0, 0], [1, 0], [1, 1], [0, 1]])
    onto = cv2.getPerspectiveTransform(unit, card.astype(np.float32))
    return cv2.perspectiveTransform(shares[None], onto)[0]


class Pool:
    """The newest `capacity` scenes off a belt, on the device; new ones replace the oldest."""

    def __init__(self, capacity: int, device: torch.device, belt: Belt) -> None:
        self.held, self.belt = _block(capacity, device), belt
        self.capacity, self.count, self.drawn = capacity, 0, 0
        self.open, self.taker = True, threading.Thread(target=self._take, daemon=True)
        self.taker.start()

    def close(self) -> None:
        """Take no more: a thread that copies to a GPU must not outlive the interpreter."""
        self.open = False
        self.taker.join()

    def _take(self) -> None:
        while self.open:
            if self.belt.take(self.held, self.drawn % self.capacity):
                self.drawn += 1
                self.count = min(self.drawn, self.capacity)

    def batch(self, size: int, generator: torch.Generator) -> Scenes:
        """`size` scenes drawn at random from those held."""
        device = self.held["quads"].device
        pick = torch.randint(self.count, (size,), generator=generator, device=device)
        names = ("pictures", "owner", "quads", "facts", "sizes")
        return Scenes(*(self.held[name][pick] for name in names))


def _block(count: int, device: torch.device) -> dict[str, torch.Tensor]:
    return {
        "pictures": torch.zeros((count, 3, LONG, LONG), dtype=torch.uint8, device=device),
        "owner": torch.zeros((count, MAP, MAP), dtype=torch.uint8, device=device),
        "quads": torch.zeros((count, MOST, 4, 2), device=device),
        "facts": torch.zeros((count, MOST, 3), device=device),
        "sizes": torch.zeros((count, 2), device=device),
    }
