"""The commands for what is private, and for one maker's data: ask, call, print, exit code."""

import sys
from pathlib import Path

import click

from swapboard.problems import Problem, errors
from swapboard.terminal import board_argument, end, plain, tell
from swapboard.vocabulary.counts import counted

FILE = click.Path(dir_okay=False, path_type=Path)
yes_option = click.option("--yes", is_flag=True, help="Do it without asking.")
HISTORY = (
    "A history kept in git, earlier copies and the site on its host still hold it: publish"
    " again, and see to the rest yourself."
)


def _passphrase(twice: bool) -> str:
    """Typed at a terminal without being shown, never an argument that others could see; a
    program may send it as a line."""
    if sys.stdin.isatty():
        return click.prompt("Passphrase", hide_input=True, confirmation_prompt=twice, err=True)
    lines = [sys.stdin.readline().rstrip("\r\n") for _ in range(2 if twice else 1)]
    if len(set(lines)) > 1:
        fix = "send the same line twice."
        end([Problem("passphrase", 0, "", "must be the same both times", None, fix)])
    return lines[0]


def _agreed(question: str, yes: bool) -> None:
    if yes:
        return
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        end([Problem("--yes", 0, "", "must be said where nobody can be asked", None,
                     f"nothing was changed; add --yes to do it ({plain(question)})")])
    if not click.confirm(plain(question), default=False):
        click.echo("Nothing was changed.")
        sys.exit(1)


@click.command()
@click.argument("file", type=FILE)
@board_argument
def backup(file: Path, board: Path) -> None:
    """Carry all of private/ into FILE, encrypted.

    The passphrase is asked twice, or read as two lines. Without it nobody can open
    the file, and without private/ a deal's secret is lost.
    """
    from swapboard.disk.backup import back_up, refuse_place

    if problem := refuse_place(board, file):
        end([problem])
    count, problems = back_up(board, file, _passphrase(twice=True))
    end(problems)
    files = counted(count, "file")
    click.echo(plain(f"{file}: {files} of private/, encrypted. Keep it on another disk."))


@click.command()
@click.argument("file", type=FILE)
@board_argument
@yes_option
def restore(file: Path, board: Path, yes: bool) -> None:
    """Put what `backup` carried into FILE back into private/.

    Files of the same name with other contents are named, and written over only
    after a yes; files that FILE does not have stay.
    """
    from swapboard.disk.backup import open_backup, would_overwrite
    from swapboard.disk.backup import restore as put_back

    if not (board / "board.toml").is_file():
        fix = "name the folder of a board, or make one with: swapboard start FOLDER"
        end([Problem("board.toml", 0, "", "must be in the board's folder", str(board), fix)])
    opened = open_backup(file, _passphrase(twice=False))
    if isinstance(opened, Problem):
        end([opened])
    if over := would_overwrite(board, opened):
        for name in over:
            click.echo(plain(f"private/{name} is there with other contents"))
        _agreed("Write over these?", yes)
    end(put_back(board, opened))
    click.echo(f"private/ has {counted(len(opened.files), 'file')} of the backup.")


@click.command()
@click.argument("maker")
@click.argument("file", type=FILE)
@board_argument
def export(maker: str, file: Path, board: Path) -> None:
    """Write all that BOARD holds of MAKER into the zip FILE, for them to have.

    Posts, pictures and their rows of private/; nobody else's rows.
    """
    from swapboard.disk.export import export_maker

    paths, problems = export_maker(board, maker, file)
    end(problems)
    for path in paths:
        click.echo(plain(path))
    click.echo(plain(f"{file}: written. It holds private things: hand it to them alone."))


@click.command()
@click.argument("maker")
@board_argument
@yes_option
def forget(maker: str, board: Path, yes: bool) -> None:
    """Take MAKER off BOARD: posts, cards, pictures, offers, rows of private/.

    Shows first what it would change, and asks; then builds anew, so that the site here
    holds them no more; sites that were built or published elsewhere are named, and by
    `check` until they are made anew. Calls that name them say "a maker who left";
    others' cards stay as their swaps left them. What git keeps is not erased.
    """
    from swapboard.disk.forget import finish_forgetting, plan_forgetting
    from swapboard.disk.forget import forget as carry_out
    from swapboard.disk.forget_journal import sites_behind
    from swapboard.disk.load import load_board

    # One that was cut short is finished first; a name that is half gone would not be found.
    finished = finish_forgetting(board)
    end(finished)
    plan, problems = plan_forgetting(load_board(board), maker)
    tell(problems)
    if plan is None or errors(problems):
        click.echo("Nothing was changed.", err=True)
        sys.exit(1)
    for path in plan.gone:
        click.echo(plain(f"take away  {path}"))
    for path in plan.written:
        click.echo(plain(f"change     {path}"))
    for words in plan.kept:
        click.echo(plain(f"stays      {words}"))
    _agreed(f"Forget {plan.maker}? This cannot be undone.", yes)
    end(carry_out(board, plan))
    _build_without(board)
    for site in sites_behind(board):
        words = (f"{site} still shows them: swapboard build --output, or swapboard publish, into it"
                 " again, or delete it.")  # fmt: skip
        click.echo(plain(words), err=True)
    click.echo(plain(f"{plan.maker} is forgotten here. {HISTORY}"))


def _build_without(board: Path) -> None:
    """Build anew where a site was built: its pages and pictures, and what was cut for them,
    go with that."""
    from swapboard.disk.forget_journal import drop_cache, site_is_behind

    if not (board / "output").is_dir():
        return drop_cache(board)
    from swapboard.site.build import build_board

    built = build_board(board)
    tell(built.problems)
    if site_is_behind(board):
        click.echo("Forgotten in the board's folder; output/ and .swapboard/cache still hold what"
                   " was built before. Mend what is said above, then: swapboard build", err=True)
        sys.exit(1)
    return None


COMMANDS = (backup, restore, export, forget)
