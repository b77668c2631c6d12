"""The command line: parse, call, print, exit code."""

import shlex
import sys
from collections.abc import Callable
from dataclasses import asdict
from datetime import date
from pathlib import Path

import click

from swapboard.call_commands import COMMANDS as CALL_COMMANDS
from swapboard.deal_commands import COMMANDS as DEAL_COMMANDS
from swapboard.disk.post_options import CALL_OPTIONS, MAKER_OPTIONS, by_key, flag_of
from swapboard.offer_commands import COMMANDS as OFFER_COMMANDS
from swapboard.print_commands import print_group
from swapboard.privacy_commands import COMMANDS as PRIVACY_COMMANDS
from swapboard.problems import ERROR, errors
from swapboard.swap_commands import match
from swapboard.terminal import (
    Day,
    asker,
    board_argument,
    board_option,
    end,
    json_option,
    plain,
    print_json,
    progress,
    tell,
    today_option,
)

FOLDER = click.Path(file_okay=False, path_type=Path)
FILE = click.Path(dir_okay=False, path_type=Path)

set_aside_option = click.option(
    "--set-aside", is_flag=True, help="Build without the posts that have errors."
)


def options_for(keys: tuple[tuple[str, str], ...]) -> Callable:
    """An option for each header key of a post, with its help."""

    def add_options(command: Callable) -> Callable:
        for key, words in reversed(keys):
            command = click.option(flag_of(key), metavar="TEXT", help=words)(command)
        return command

    return add_options


class Commands(click.Group):
    """Commands that end politely, whatever stops them."""

    def invoke(self, context: click.Context) -> object:
        """Run a command; Ctrl-C ends it with exit code 130, as a shell has it."""
        for stream in (sys.stdout, sys.stderr):
            # A name may hold what the terminal's encoding cannot say.
            stream.reconfigure(errors="backslashreplace")
        try:
            return super().invoke(context)
        except KeyboardInterrupt:
            click.echo("\nStopped.", err=True)
            sys.exit(130)
        except BrokenPipeError:
            raise  # click knows how to end when nobody reads on
        except OSError as error:
            from swapboard.disk.trouble import problem_of

            tell([problem_of(error, ".")])
            sys.exit(1)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="swapboard", message="swapboard %(version)s")
def main() -> None:
    """A board of artist trading cards, made to be swapped: from posts and photos to a site."""


@main.command()
@click.argument("folder", type=FOLDER)
@click.option("--name", help="The board's name.")
@click.option("--maker", help="Your name, as swappers know you.")
@click.option("--country", help="The country you are in; it settles the paper too.")
def start(folder: Path, name: str | None, maker: str | None, country: str | None) -> None:
    """Make a new board in FOLDER.

    On a terminal it asks for what no option says: three questions, and Enter
    will do for each.
    """
    from swapboard.disk.start import Answers, start_board

    end(start_board(folder, Answers(name, maker, country), asker()))
    place = shlex.quote(str(folder))
    click.echo(f"A board stands ready in {folder}. Next:")
    click.echo(f"  cd {place}")
    click.echo("  swapboard add card PHOTO…")
    click.echo("  swapboard preview")


@main.group()
def add() -> None:
    """Add posts to a board."""


@add.command("card")
@click.argument("photos", nargs=-1, required=True, type=FILE)
@board_option
@click.option("--maker", default="", help="Whose cards they are; the keeper's if left out.")
@click.option("--call", default="", help="The call they came for: they are hidden until it opens.")
def add_card(photos: tuple[Path, ...], board: Path, maker: str, call: str) -> None:
    """Write one post for each card found in the pictures PHOTOS.

    The pictures are copied to photos/ without the place, owner and serial
    number that a camera writes into them.
    """
    from swapboard.disk.adding import add_cards

    added, problems = add_cards(board, photos, maker, call)
    for post in added:
        click.echo(plain(f"{post.path}: {post.words}"))
    if added:
        click.echo("Next: give each its Title, and add lines for Themes, Media and Alt.")
    end(problems)


@add.command("maker")
@click.argument("name", default="")
@board_option
@options_for(MAKER_OPTIONS)
def add_maker(name: str, board: Path, **said: str | None) -> None:
    """Write a post for the maker NAME; on a terminal it asks for a name left out."""
    from swapboard.disk.new_posts import add_maker

    path, problems = add_maker(board, name, by_key(MAKER_OPTIONS, said), asker())
    end(problems)
    click.echo(plain(f"{path}: written. Next: add a few words about them, below an empty line."))


@add.command("call")
@click.argument("title")
@board_option
@options_for(CALL_OPTIONS)
@click.option("--today", type=Day(), help="The day to count from; today if left out.")
def add_call(title: str, board: Path, today: date | None, **said: str | None) -> None:
    """Write a swap call with the title TITLE.

    On a terminal it asks for what is needed most and no option says, and
    proposes dates; Enter will do for each.
    """
    from swapboard.disk.new_posts import add_call

    path, problems = add_call(board, title, by_key(CALL_OPTIONS, said), today, asker())
    end(problems)
    click.echo(plain(f"{path}: written. Next: say what it is about, below an empty line."))


@main.command()
@board_argument
@json_option
def check(board: Path, as_json: bool) -> None:
    """Name every problem of BOARD; nothing is written."""
    from swapboard.disk.check import check_board

    with progress("Cutting cards out of photos") as bar:
        problems = check_board(board, bar)
    if as_json:
        print_json(
            {
                "version": 1,
                "errors": len(errors(problems)),
                "warnings": len(problems) - len(errors(problems)),
                "problems": [asdict(problem) for problem in problems],
            }
        )
        sys.exit(1 if errors(problems) else 0)
    end(problems, "No problems.")


@main.command()
@board_argument
@click.option("--output", type=FOLDER, help="Where to build; BOARD/output if left out.")
@today_option
@set_aside_option
def build(board: Path, output: Path | None, today: date | None, set_aside: bool) -> None:
    """Build the site of BOARD.

    Where a post has an error nothing is written, and the last good site stays.
    """
    _build(board, output, today, set_aside)


def _build(board: Path, output: Path | None, today: date | None, set_aside: bool) -> None:
    from swapboard.site.build import build_board

    with progress("Cutting cards out of photos") as bar:
        built = build_board(board, output, today, set_aside, bar)
    tell(built.problems)
    for path in built.left_out:
        click.echo(plain(f"set aside: {path}"), err=True)
    if not built.done:
        click.echo("Nothing was built; the last good site stays as it was.", err=True)
        sys.exit(1)
    click.echo(built.words)


@main.command()
@click.argument("dest", type=click.Path(path_type=Path))
@board_argument
@click.option("--no-build", is_flag=True, help="Take the site as it was last built.")
@today_option
@set_aside_option
def publish(
    dest: Path, board: Path, no_build: bool, today: date | None, set_aside: bool
) -> None:
    """Build BOARD and put its site into DEST.

    DEST is a folder, which gets only what changed, or a file that ends in .zip.
    """
    from swapboard.disk.publish import publish_site, refuse_destination, words_for

    site = board / "output"
    if problem := refuse_destination(site, dest, board):
        end([problem])
    if not no_build:
        _build(board, None, today, set_aside)
    published, problems = publish_site(site, dest, board)
    end(problems)
    for line in words_for(published, dest):
        click.echo(plain(line))


@main.command()
@board_argument
@click.option("--port", default=8000, help="The first port to try.", show_default=True)
@today_option
def preview(board: Path, port: int, today: date | None) -> None:
    """Build BOARD, show it at an address of this computer, and build again on change."""
    from swapboard.site.preview import preview_board

    if not preview_board(board, port, today, say=click.echo, tell=tell):
        sys.exit(1)


@main.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path))
@json_option
def photos(paths: tuple[Path, ...], as_json: bool) -> None:
    """Say what was found in each picture, and what is doubtful.

    PATHS are picture files, or one board's folder; this folder if left out. For a
    board it also writes a page, kept out of the site, on which corners are dragged
    to where they belong, and says where that page is.
    """
    from swapboard.disk.cutting import report_on
    from swapboard.disk.photo_report import text

    with progress("Looking at photos") as bar:
        report = report_on(paths or (Path(),), bar)
    if as_json:
        print_json(report)
    else:
        click.echo(text(report), nl=False)
        _put_corners_right(paths or (Path(),))
    sys.exit(1 if any(p["severity"] == ERROR for p in report["problems"]) else 0)


def _put_corners_right(paths: tuple[Path, ...]) -> None:
    """Write the page on which a board's corners are put right, and say where it is."""
    if len(paths) > 1 or not paths[0].is_dir():
        return
    from swapboard.site.fix_page import write_fix_page

    with progress("Copying photos for the page that puts corners right") as bar:
        page, problems = write_fix_page(paths[0], bar)
    tell(problems)
    if page is not None:
        click.echo(plain(f"To put corners right: {page}"))


main.add_command(match)
main.add_command(print_group)
for command in (*CALL_COMMANDS, *DEAL_COMMANDS, *OFFER_COMMANDS, *PRIVACY_COMMANDS):
    main.add_command(command)
