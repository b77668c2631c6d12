"""Pages of a list, counted from the oldest, so that a new card changes few."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Sheet(Generic[T]):
    """One page of a list: `number` of `of`, its items newest first."""

    number: int
    of: int
    items: tuple[T, ...]

    @property
    def is_newest(self) -> bool:
        """Whether this is the page that a visitor sees first."""
        return self.number == self.of


def sheets(newest_first: Sequence[T], size: int) -> list[Sheet[T]]:
    """Cut a list into pages of `size`, the oldest page being number 1.

    The newest page also holds what is left over (so it has from `size` to
    2 × size − 1 items): adding an item changes that page alone until a new
    one is due. An empty list has one empty page.
    """
    if size < 1:
        raise ValueError(f"size must be at least 1 (got {size})")
    count = max(1, len(newest_first) // size)
    first = len(newest_first) - size * (count - 1)
    cut = [newest_first[:first]]
    cut += [newest_first[start : start + size] for start in range(first, len(newest_first), size)]
    return [Sheet(count - i, count, tuple(items)) for i, items in enumerate(cut)]
