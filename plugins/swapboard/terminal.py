"""Talking with whoever sits at the terminal: problems, progress, questions, and the
options that many commands share."""

import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import Any

import click

from swapboard.problems import Problem, errors


def end(problems: list[Problem], if_none: str = "") -> None:
    """Print problems; end with exit code 1 where one is an error."""
    tell(problems)
    if errors(problems):
        sys.exit(1)
    if not problems and if_none:
        click.echo(if_none)


def tell(problems: list[Problem]) -> None:
    """Print problems, a line each, where errors go."""
    for problem in problems:
        click.echo(plain(f"{problem.severity}: {problem}"), err=True)


def plain(text: str) -> str:
    """Text on one line that a terminal takes for text: names may hold anything."""
    return "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text)


def print_json(data: object) -> None:
    """Print an object for programs to read."""
    click.echo(json.dumps(data, ensure_ascii=False, indent=2))


def asker() -> Callable[[str, str, str], str] | None:
    """Asks a question with a default, after a complaint about the last answer; None
    where there is no terminal, so that nobody can answer."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return None

    def ask(question: str, default: str, complaint: str) -> str:
        if complaint:
            click.echo(plain(complaint))
        return click.prompt(question, default=default, show_default=bool(default))

    return ask


def at_work(board: Path, work: Callable[[], Any]) -> Any:
    """Do a command's work while no other run has the board; end with what is wrong."""
    from swapboard.disk.call_edit import CallRefused
    from swapboard.disk.lock import BoardBusy, board_lock
    from swapboard.disk.trouble import problem_of

    try:
        if not (board / "board.toml").is_file():
            return work()
        with board_lock(board / ".swapboard"):
            return work()
    except CallRefused as refused:
        tell(refused.problems)
    except BoardBusy as busy:
        tell([busy.problem])
    except OSError as error:
        tell([problem_of(error, str(board))])
    return sys.exit(1)


def say(told: tuple[list[str], list[Problem]]) -> None:
    """Print what a command did, then its warnings."""
    words, problems = told
    for line in words:
        click.echo(plain(line))
    end(problems)


@contextmanager
def progress(words: str) -> Iterator[Callable[[int, int], None] | None]:
    """A progress bar on a terminal; nothing elsewhere."""
    if not sys.stderr.isatty():
        yield None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(words, total=None)
        yield lambda done, total: bar.update(task, completed=done, total=total)


class Day(click.ParamType):
    """A date like 2026-10-10."""

    name = "date"

    def convert(self, value: object, param: object, ctx: object) -> date:
        """The date, or a usage error."""
        try:
            return date.fromisoformat(str(value))
        except ValueError:
            self.fail(f'must be a date like 2026-10-10 (got "{value}")')


board_argument = click.argument(
    "board", type=click.Path(file_okay=False, path_type=Path), default=Path()
)
today_option = click.option("--today", type=Day(), help="The day to build for; today if left out.")
json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON, for programs.")
board_option = click.option(
    "--board",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path(),
    help="The board's folder; this one if left out.",
)
day_option = click.option("--today", type=Day(), help="The day it happened; today if left out.")
