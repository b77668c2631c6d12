"""How much a search may do: counted in its own steps, so that a slow machine finds the same."""

import time
from dataclasses import dataclass, field

MINUTE = 60.0
_GUARD = 0.93  # of the time; the rest is for writing down what was found


@dataclass(slots=True)
class Effort:
    """What may be done, as a share of what a search of a minute may do, and the guard.

    Steps, tries and nodes are counted; the clock is looked at only so that nobody waits
    longer than they said. `late` says that the clock cut something short, here or in a
    part of it, so that another run may find something else."""

    share: float
    until: float
    late: bool = False
    _whole: "Effort | None" = field(default=None, repr=False)

    @classmethod
    def of(cls, seconds: float) -> "Effort":
        """What may be done in so many seconds from now on."""
        return cls(seconds / MINUTE, time.monotonic() + _GUARD * seconds)

    def part(self, share: float) -> "Effort":
        """A part of it, which leaves the rest of the time to what comes after."""
        now = time.monotonic()
        return Effort(self.share, now + share * max(0.0, self.until - now), False, self)

    def steps(self, in_a_minute: float, least: int = 1) -> int:
        """How many steps may be taken, of which so many may be taken in a minute."""
        return max(least, int(self.share * in_a_minute))

    def left(self) -> float:
        """Seconds until the guard, none below zero."""
        return max(0.0, self.until - time.monotonic())

    def over(self) -> bool:
        """Whether the clock has run out, which is noted."""
        ended = time.monotonic() >= self.until
        if ended:
            self.note()
        return ended

    def note(self) -> None:
        """Note that the clock cut something short."""
        self.late = True
        if self._whole is not None:
            self._whole.note()
