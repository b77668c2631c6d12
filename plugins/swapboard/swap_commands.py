"""The command that finds swaps: parse, call, print, exit code."""

import sys
from datetime import date
from pathlib import Path

import click

from swapboard.terminal import board_argument, json_option, plain, print_json, tell, today_option


@click.command()
@board_argument
@click.option(
    "--rings", type=click.IntRange(2, 4), help="The most makers in a swap; the setting if left out."
)
@today_option
@json_option
def match(board: Path, rings: int | None, today: date | None, as_json: bool) -> None:
    """Propose swaps on BOARD: who could swap which cards with whom, and why.

    Each card goes once, to somebody who wants it. As many cards as can be reach
    somebody; then as few as can be go in rings of three or four makers; then
    likings, parcels and fairness count. What is proven best is said to be.
    """
    from swapboard.disk.matching import match_board
    from swapboard.matching.report import as_data, as_text

    matched = match_board(board, rings, today)
    tell(matched.problems)
    if matched.proposals is None:
        sys.exit(1)
    if as_json:
        print_json(as_data(matched.proposals))
    else:
        for line in as_text(matched.proposals).splitlines():
            click.echo(plain(line))
