"""A Pelican run that checks first, builds aside, verifies, and swaps in at once."""

import logging
from contextlib import suppress
from pathlib import Path
from typing import Any

from jinja2 import TemplateNotFound
from pelican import Pelican
from pelican.log import console

from swapboard.disk.announced import announced, note_announced
from swapboard.disk.forget_journal import settle
from swapboard.disk.load import Loaded
from swapboard.disk.lock import BoardBusy, board_lock
from swapboard.disk.matching import matching_of
from swapboard.disk.photo_cache import cache_folder, prune
from swapboard.disk.print_fonts import fonts_of
from swapboard.disk.recipe import page_recipe
from swapboard.disk.staging import Staging, refuse_foreign_folder
from swapboard.disk.trouble import problem_of
from swapboard.disk.verify import verify
from swapboard.matching.types import Matching
from swapboard.problems import Problem, errors, in_order
from swapboard.records.call_cards import without_hidden
from swapboard.site import PLUGINS
from swapboard.site.photos import pictures_of
from swapboard.site.prepare import Prepared, Wishes, prepare_board
from swapboard.site.run import BuildRun, PageRefused
from swapboard.site.theme_files import theme_files
from swapboard.views.home import around
from swapboard.views.showing import Showing


class BoardRefused(SystemExit):
    """The board cannot be built; `problems` say why. Nothing was written.

    A SystemExit, so that a plain Pelican run ends with exit code 1 and our
    words instead of a traceback.
    """

    def __init__(self, problems: list[Problem]) -> None:
        super().__init__(1)
        self.problems = problems


class SwapboardPelican(Pelican):
    """Pelican for a board: see `run`. `report` holds what the last run found."""

    report: Prepared | None = None

    def run(self) -> None:
        """Check the board, cut its photos, draw its pages aside, verify, swap.

        Raises `BoardRefused` before anything visible has changed.
        """
        wishes: Wishes = self.settings["SWAPBOARD_WISHES"]
        folder, live = Path(self.settings["PATH"]), Path(self.settings["OUTPUT_PATH"])
        state = folder / ".swapboard"
        try:
            with board_lock(state):
                self._build(folder, live, state, wishes)
        except BoardBusy as busy:
            self._refuse([busy.problem], wishes)
        except PageRefused as refused:
            self._refuse([refused.problem], wishes)
        except TemplateNotFound:  # an OSError by descent, and a fault of the theme
            raise
        except OSError as error:  # a full disk, a folder that may not be written to …
            self._refuse([problem_of(error, str(folder))], wishes)

    def _build(self, folder: Path, live: Path, state: Path, wishes: Wishes) -> None:
        foreign = refuse_foreign_folder(live, folder)
        if foreign:
            self._refuse([foreign], wishes)
        prepared = prepare_board(folder, wishes)
        self.report = prepared
        if prepared.blocked:
            self._refuse(list(prepared.loaded.problems), wishes)
        sections = self._sections()
        matching, failed = matching_of(prepared.loaded) if "swaps" in sections else (None, [])
        if failed:
            self._refuse(in_order([*prepared.loaded.problems, *failed]), wishes)
        with Staging(live, state) as staging:
            self._draw(prepared, staging, sections, matching)
            staging.finish()
            wrong = verify(staging, folder)
            if errors(wrong):
                self._refuse(in_order([*prepared.loaded.problems, *wrong]), wishes)
            before = announced(folder)
            found = [*wrong, *staging.go_live()]
        with suppress(OSError):  # the site is live; tidying can wait
            prune(folder, prepared.cut.values())
            settle(folder, live)
            note_announced(folder, prepared.loaded.board, before)
        self.report = prepared.with_problems(found)
        if not wishes.quiet:
            tell(self.report.loaded)

    def _sections(self) -> frozenset[str]:
        on = set(self.settings["PLUGINS"])
        sections = {name.rpartition(".")[2] for name in PLUGINS if name in on}
        if "cards" not in sections:
            sections.discard("compose")  # there would be nothing to ask for
        return frozenset(sections)

    def _draw(
        self, prepared: Prepared, staging: Staging, sections: frozenset[str],
        matching: Matching | None,
    ) -> None:
        """Have every generator put its pages into `staging`."""
        loaded = prepared.loaded
        settings = loaded.settings
        board = without_hidden(loaded.board)
        cut = {key: one for key, one in prepared.cut.items() if key[0] in board.cards}
        pictures = pictures_of(board, cut) if "photos" in sections else {}
        showing = Showing(board, settings, pictures, loaded.today, sections, matching)
        recipe = page_recipe(Path(self.theme) / "templates")
        view = around(showing, direction_of(settings.board.language))
        run = BuildRun(showing, staging, view, recipe)
        self.settings["SWAPBOARD_RUN"] = run
        self.settings["SWAPBOARD_FONTS"] = fonts_of(loaded.folder, settings)[0]
        self.settings["SWAPBOARD_CUT"] = cut
        self.settings["SWAPBOARD_PHOTO_CACHE"] = cache_folder(loaded.folder)
        for path, data in theme_files(Path(self.theme) / "static"):
            run.put_bytes(path, data)
        self.output_path = str(staging.folder)
        quiet, console.quiet = console.quiet, True  # it would report articles and drafts
        try:
            super().run()
        finally:
            console.quiet = quiet

    def _refuse(self, problems: list[Problem], wishes: Wishes) -> None:
        if not wishes.quiet:
            for problem in problems:
                logging.getLogger(__name__).error("%s", problem)
        raise BoardRefused(problems)


def tell(loaded: Loaded) -> None:
    """Log the warnings of a build that went through."""
    for problem in loaded.problems:
        logging.getLogger(__name__).warning("%s", problem)


def direction_of(language: str) -> str:
    """ "rtl" for a language written from right to left, else "ltr" (CLDR)."""
    from babel import Locale, UnknownLocaleError

    try:
        locale: Any = Locale.parse(language, sep="-")
    except (UnknownLocaleError, ValueError):
        return "ltr"
    return "rtl" if locale.text_direction == "rtl" else "ltr"
