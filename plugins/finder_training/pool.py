"""Scenes drawn on every core while the GPU trains."""

import multiprocessing
import threading
from collections.abc import Iterable

import cv2
import numpy as np
import torch

from finder_training.samples import LONG, MAP, MOST, Scenes

SLOTS = 256


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


def _draw(seed: int, worker: int, stream: int, block: dict, free, full) -> None:
    from finder_training.scenes import any_kind, draw_scene

    cv2.setNumThreads(1)
    pictures = picture_bank()
    rng = np.random.default_rng([seed, worker, stream])
    while True:
        scene = draw_scene(any_kind(rng), int(rng.integers(2**40)), LONG, pictures, stream=stream)
        slot = free.get()
        height, width = scene.picture.shape[:2]
        picture, owner = block["pictures"][slot].numpy(), block["owner"][slot].numpy()
        picture[:], owner[:] = 0, 0
        picture[:, :height, :width] = scene.picture.transpose(2, 0, 1)
        step = LONG // MAP
        seen = scene.owner[step // 2 :: step, step // 2 :: step]
        owner[: seen.shape[0], : seen.shape[1]] = np.where(seen > MOST, 0, seen)
        quads, facts = block["quads"][slot].numpy(), block["facts"][slot].numpy()
        quads[:], facts[:] = 0, 0
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
        facts[:count, 2] = scene.cut[:count] & (scene.kind != "cropped")
        more = min(len(decoys), MOST - count)
        quads[count : count + more] = decoys[:more]
        facts[count : count + more, 0] = 2
        block["sizes"][slot] = torch.tensor([width, height])
        full.put(slot)


class Pool:
    """The newest `capacity` scenes on the device; new ones replace the oldest."""

    def __init__(self, capacity: int, device: torch.device) -> None:
        self.held = _block(capacity, device)
        self.capacity, self.count, self.drawn = capacity, 0, 0

    def start(self, seed: int, workers: Iterable[int], stream: int = 1) -> None:
        """Begin drawing; the workers end with this process."""
        context = multiprocessing.get_context("spawn")
        self.block = {name: part.share_memory_() for name, part in
                      _block(SLOTS, torch.device("cpu")).items()}
        self.free, self.full = context.Queue(), context.Queue()
        for slot in range(SLOTS):
            self.free.put(slot)
        for worker in workers:
            context.Process(target=_draw, daemon=True,
                            args=(seed, worker, stream, self.block, self.free, self.full)).start()
        threading.Thread(target=self._take, daemon=True).start()

    def _take(self) -> None:
        while True:
            slot = self.full.get()
            place = self.drawn % self.capacity
            for name, part in self.held.items():
                part[place].copy_(self.block[name][slot])
            self.free.put(slot)
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
