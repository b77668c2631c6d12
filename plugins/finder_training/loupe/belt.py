"""Strips drawn on every core while a GPU trains."""

import queue

import cv2
import numpy as np
import torch
from torch import Tensor, multiprocessing

from finder_training.loupe.shown import any_sides
from swapboard.photo.networks import ALONG, BINS

AT_ONCE = 24
"""Cards' strips that travel together, at least."""


class Belt:
    """Processes that draw, and the newest of what they drew on the device."""

    def __init__(self, seed: int, stream: int, workers: int) -> None:
        context = multiprocessing.get_context("spawn")
        self.queue = context.Queue(400)
        self.drawing = [context.Process(target=_draw, args=(self.queue, seed, worker, stream),
                                        daemon=True) for worker in range(workers)]
        for one in self.drawing:
            one.start()
        self.drawn, self.strips, self.off = 0, None, None

    @property
    def count(self) -> int:
        """How many are held."""
        return 0 if self.strips is None else min(self.drawn, len(self.strips))

    def take_all(self, count: int) -> tuple[Tensor, Tensor]:
        """So many, and not held."""
        taken = []
        while sum(len(off) for _, off in taken) < count:
            taken.append(self.queue.get())
        return tuple(torch.from_numpy(np.concatenate(parts)) for parts in zip(*taken, strict=True))

    def fill(self, capacity: int, device: torch.device) -> None:
        """Hold what has been drawn; new ones replace the oldest."""
        if self.strips is None:
            shape = (capacity, 4, 3, ALONG, BINS)
            self.strips = torch.empty(shape, dtype=torch.uint8, device=device)
            self.off = torch.empty((capacity, 4), device=device)
        while True:
            try:
                strips, off = self.queue.get(timeout=0 if self.count else 1)
            except queue.Empty:
                return
            place = torch.from_numpy(np.arange(self.drawn, self.drawn + len(off)) % capacity)
            self.strips[place.to(device)] = torch.from_numpy(strips).to(device)
            self.off[place.to(device)] = torch.from_numpy(off).to(device)
            self.drawn += len(off)

    def batch(self, size: int, generator: torch.Generator) -> tuple[Tensor, Tensor]:
        """Strips float [size, 4, 3, 32, 96] in 0–1 and how far off their sides are."""
        pick = torch.randint(self.count, (size,), device=self.off.device, generator=generator)
        return self.strips[pick].float() / 255, self.off[pick]

    def stop(self) -> None:
        """Draw no more."""
        for one in self.drawing:
            one.kill()


def _draw(belt: multiprocessing.Queue, seed: int, worker: int, stream: int) -> None:
    from finder_training.pool import picture_bank
    from swapboard.disk.finder import networks as shipped

    cv2.setNumThreads(1)
    pictures, networks, held = picture_bank(), shipped(), []
    rng = np.random.default_rng([seed, worker, stream])
    while True:
        held += any_sides(rng, pictures, networks)
        if len(held) >= AT_ONCE:
            strips, off = (np.stack(parts) for parts in zip(*held, strict=True))
            belt.put((strips, off))
            held = []
