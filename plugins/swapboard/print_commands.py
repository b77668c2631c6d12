"""The commands that put things on paper: parse, call, write a PDF, exit code."""

from pathlib import Path

import click

from swapboard.problems import Problem
from swapboard.terminal import board_argument, end, plain
from swapboard.vocabulary.label_sheets import LABEL_SHEETS
from swapboard.vocabulary.paper import PAPER
from swapboard.vocabulary.postal import ENVELOPES

FILE = click.Path(dir_okay=False, path_type=Path)
paper_option = click.option(
    "--paper", type=click.Choice(list(PAPER)), help="The paper; the board's if left out."
)


@click.group("print")
def print_group() -> None:
    """Put labels, lists and flyers on paper, as PDF."""


def _written(board: Path, file: Path, printed: tuple[bytes | None, list[Problem]]) -> None:
    from swapboard.disk.backup import write_new_private

    pdf, problems = printed
    end(problems)
    if pdf is None:
        end([Problem(str(file), 0, "", "was not written", None, "see above.")])
    write_new_private(file, pdf)
    click.echo(plain(f"{file}: written. Print it at full size, without fitting it to the page."))


def _refuse(board: Path, file: Path) -> None:
    from swapboard.disk.backup import refuse_place

    if problem := refuse_place(board, file):
        end([problem])


@print_group.command("labels")
@click.argument("file", type=FILE)
@board_argument
@click.option("--call", default="", help="Only for the people of this call.")
@click.option("--sheet", default="", type=click.Choice(["", *LABEL_SHEETS]), show_choices=False,
              metavar="SIZE", help=f"A label's size: {', '.join(LABEL_SHEETS)}.")
@click.option("--first", default=1, show_default=True,
              help="The first label that is still on the sheet.")
def print_labels(file: Path, board: Path, call: str, sheet: str, first: int) -> None:
    """Write address labels into the PDF FILE, from private/addresses.csv."""
    from swapboard.disk import prints

    _refuse(board, file)
    _written(board, file, prints.print_labels(board, call, sheet, first))


@print_group.command("picklist")
@click.argument("call")
@click.argument("file", type=FILE)
@board_argument
@click.option("--value", default="", help="The public value that completes the seed, if any.")
@click.option("--envelope", type=click.Choice(list(ENVELOPES)), default="C6", show_default=True,
              help="The envelopes that you use.")
@paper_option
def print_picklist(
    call: str, file: Path, board: Path, value: str, envelope: str, paper: str | None
) -> None:
    """Write what goes into each envelope of CALL into the PDF FILE.

    From the deal as it is kept in private/; with a guess of each one's weight.
    """
    from swapboard.disk import prints

    _refuse(board, file)
    _written(board, file, prints.print_pick_list(board, call, value, paper or "", envelope))


@print_group.command("flyer")
@click.argument("call")
@click.argument("file", type=FILE)
@board_argument
@paper_option
def print_flyer(call: str, file: Path, board: Path, paper: str | None) -> None:
    """Write a flyer for CALL into the PDF FILE: one page, with a code to its page.

    A build puts the same flyer beside the call's page, on both papers.
    """
    from swapboard.disk import prints

    _refuse(board, file)
    _written(board, file, prints.print_flyer(board, call, paper or ""))
