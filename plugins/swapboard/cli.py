"""The command line: parse, call, print, exit code."""

import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import asdict
from datetime import date
from pathlib import Path

import click

from swapboard.problems import ERROR, Problem, errors

FOLDER = click.Path(file_okay=False, path_type=Path)
FILE = click.Path(dir_okay=False, path_type=Path)


class Day(click.ParamType):
    """A date like 2026-10-10."""

    name = "date"

    def convert(self, value: object, param: object, ctx: object) -> date:
        """The date, or a usage error."""
        try:
            return date.fromisoformat(str(value))
        except ValueError:
            self.fail(f'must be a date like 2026-10-10 (got "{value}")')


board_argument = click.argument("board", type=FOLDER, default=Path())
board_option = click.option(
    "--board", type=FOLDER, default=Path(), help="The board's folder; this one if left out."
)
today_option = click.option("--today", type=Day(), help="The day to build for; today if left out.")
json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON, for programs.")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="swapboard", message="swapboard %(version)s")
def main() -> None:
    """A board of artist trading cards, made to be swapped: from posts and photos to a site."""


@main.command()
@click.argument("folder", type=FOLDER)
def start(folder: Path) -> None:
    """Make a new board in FOLDER."""
    from swapboard.disk.start import start_board

    _end(start_board(folder))
    click.echo(f"A board stands ready in {folder}. Next:")
    click.echo(f"  swapboard add card PHOTO… --board {folder}")
    click.echo(f"  swapboard build {folder}")


@main.group()
def add() -> None:
    """Add posts to a board."""


@add.command("card")
@click.argument("photos", nargs=-1, required=True, type=FILE)
@board_option
@click.option("--maker", default="", help="Whose cards they are; the keeper's if left out.")
def add_card(photos: tuple[Path, ...], board: Path, maker: str) -> None:
    """Write one post for each card found in the pictures PHOTOS.

    The pictures are copied to photos/ without the place, owner and serial
    number that a camera writes into them.
    """
    from swapboard.disk.adding import add_cards

    added, problems = add_cards(board, photos, maker)
    for post in added:
        click.echo(f"{post.path}: {post.words}")
    _end(problems)


@main.command()
@board_argument
@json_option
def check(board: Path, as_json: bool) -> None:
    """Name every problem of BOARD; nothing is written."""
    from swapboard.disk.check import check_board

    problems = check_board(board)
    if as_json:
        _print_json(
            {
                "version": 1,
                "errors": len(errors(problems)),
                "warnings": len(problems) - len(errors(problems)),
                "problems": [asdict(problem) for problem in problems],
            }
        )
        sys.exit(1 if errors(problems) else 0)
    _end(problems, "No problems.")


@main.command()
@board_argument
@click.option("--output", type=FOLDER, help="Where to build; BOARD/output if left out.")
@today_option
@click.option("--set-aside", is_flag=True, help="Build without the posts that have errors.")
def build(board: Path, output: Path | None, today: date | None, set_aside: bool) -> None:
    """Build the site of BOARD.

    Where a post has an error nothing is written, and the last good site stays.
    """
    from swapboard.site.build import build_board

    with _progress("Cutting cards out of photos") as progress:
        built = build_board(board, output, today, set_aside, progress)
    _tell(built.problems)
    for path in built.left_out:
        click.echo(f"set aside: {path}", err=True)
    if not built.done:
        click.echo("Nothing was built; the last good site stays as it was.", err=True)
        sys.exit(1)
    click.echo(built.words)


@main.command()
@click.argument("call")
@board_argument
@click.option("--value", default="", help="The public value that completes the seed, if any.")
@json_option
def deal(call: str, board: Path, value: str, as_json: bool) -> None:
    """Deal what has arrived for CALL, so that everybody can verify it later.

    The first time a secret is drawn and kept in private/deals/, and the list of what
    has arrived is frozen; the same list gives the same deal. What is printed is for
    the host alone.
    """
    from swapboard.disk.deals import as_data, deal_call, in_words

    made = deal_call(board, call, value)
    if as_json:
        data = as_data(call, made, value)
        _print_json({**data, "problems": [asdict(problem) for problem in made.problems]})
    else:
        _tell(made.problems)
        for line in in_words(call, made) if made.deal else ():
            click.echo(line)
    sys.exit(0 if made.deal and made.deal.possible else 1)


@main.command()
@board_argument
@click.option("--port", default=8000, help="The first port to try.", show_default=True)
@today_option
def preview(board: Path, port: int, today: date | None) -> None:
    """Build BOARD, show it at an address of this computer, and build again on change."""
    from swapboard.site.preview import preview_board

    preview_board(board, port, today, say=click.echo, tell=_tell)


@main.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path))
@json_option
def photos(paths: tuple[Path, ...], as_json: bool) -> None:
    """Say what was found in each picture, and what is doubtful.

    PATHS are picture files, or one board's folder; this folder if left out.
    """
    from swapboard.disk.cutting import report_on
    from swapboard.disk.photo_report import text

    with _progress("Looking at photos") as progress:
        report = report_on(paths or (Path(),), progress)
    if as_json:
        _print_json(report)
    else:
        click.echo(text(report), nl=False)
    sys.exit(1 if any(p["severity"] == ERROR for p in report["problems"]) else 0)


def _end(problems: list[Problem], if_none: str = "") -> None:
    """Print problems; end with exit code 1 where one is an error."""
    _tell(problems)
    if errors(problems):
        sys.exit(1)
    if not problems and if_none:
        click.echo(if_none)


def _tell(problems: list[Problem]) -> None:
    for problem in problems:
        click.echo(f"{problem.severity}: {problem}", err=True)


def _print_json(data: object) -> None:
    click.echo(json.dumps(data, ensure_ascii=False, indent=2))


@contextmanager
def _progress(words: str) -> Iterator[Callable[[int, int], None] | None]:
    """A progress bar on a terminal; nothing elsewhere."""
    if not sys.stderr.isatty():
        yield None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(words, total=None)
        yield lambda done, total: bar.update(task, completed=done, total=total)
