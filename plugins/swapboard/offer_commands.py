"""The commands around offers, take, offer and today: parse, call, print, exit code."""

from datetime import date
from pathlib import Path

import click

from swapboard.records.offer_lines import STEPS
from swapboard.terminal import Day, board_argument, end, plain, tell, today_option


@click.command()
@click.argument("name")
@click.argument("what", type=click.Choice(STEPS, case_sensitive=False))
@board_argument
@click.option("--by", default="", metavar="MAKER", help="Who has mailed or received the cards.")
@click.option("--on", type=Day(), help="The day on which it happened; today if left out.")
@today_option
def offer(
    name: str, what: str, board: Path, by: str, on: date | None, today: date | None
) -> None:
    """Write down what has happened to the offer NAME, as a dated line of its post.

    Everything else in the post stays as it is, and what cannot have happened is refused.
    """
    from swapboard.disk.ledger import Step, write_step

    told, problems = write_step(board, Step(name, what.lower(), by, on), today)
    if told is None:
        end(problems)
    tell(problems)
    click.echo(plain(told.words))
