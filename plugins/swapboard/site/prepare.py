"""Everything that is known of a board before a page is drawn."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from swapboard.disk.announced import moved_dates
from swapboard.disk.cutting import cut_photos
from swapboard.disk.leaks import private_fields
from swapboard.disk.load import Loaded, load_board
from swapboard.disk.photo_cache import CutCard
from swapboard.disk.print_fonts import paper_problems
from swapboard.problems import Problem, errors
from swapboard.records.set_aside import not_safe_to_set_aside, set_aside

Cut = Mapping[tuple[str, str], CutCard]


@dataclass(frozen=True, slots=True)
class Wishes:
    """What one build was asked for, beside what the board's files say.

    `today` None means SOURCE_DATE_EPOCH, else the clock, in the board's zone.
    """

    today: date | None = None
    set_aside: bool = False
    workers: int | None = None
    quiet: bool = False
    progress: Callable[[int, int], None] | None = None


@dataclass(frozen=True, slots=True)
class Prepared:
    """A board as it will be shown, its cut cards, and the posts set aside.

    `blocked` is true where errors are left that nothing may be built over.
    """

    loaded: Loaded
    cut: Cut
    left_out: tuple[str, ...] = ()
    blocked: bool = False

    def with_problems(self, more: list[Problem]) -> "Prepared":
        """The same with further problems known."""
        return replace(self, loaded=self.loaded.with_problems(more))


def prepare_board(folder: Path, wishes: Wishes) -> Prepared:
    """Load the board in `folder` and cut its photos.

    With `wishes.set_aside` the posts with errors are left out, and those that
    cannot stand without them, where that is safe.
    """
    loaded = load_board(folder, wishes.today)
    cut, wrong = cut_photos(loaded, wishes.workers, wishes.progress)
    unreadable = private_fields(folder)[1]
    more = [*moved_dates(folder, loaded.board), *paper_problems(loaded)]
    loaded = loaded.with_problems([*wrong, *unreadable, *more])
    if not errors(loaded.problems):
        return Prepared(loaded, cut)
    if not wishes.set_aside or not_safe_to_set_aside(loaded.problems, loaded.settings):
        return Prepared(loaded, cut, blocked=True)
    board, left_out = set_aside(loaded.board, loaded.problems)
    kept = {key: one for key, one in cut.items() if key[0] in board.cards}
    return Prepared(replace(loaded, board=board), kept, tuple(left_out))
