"""The commands around offers, take, offer, propose and today: parse, call, print, exit code."""

import sys
from dataclasses import asdict
from datetime import date
from pathlib import Path

import click

from swapboard.problems import errors
from swapboard.records.offer_lines import STEPS
from swapboard.terminal import (
    Day,
    board_argument,
    end,
    json_option,
    plain,
    print_json,
    tell,
    today_option,
)


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


@click.command()
@click.argument("makers", nargs=-1, required=True, metavar="MAKER...")
@click.option("--agreed", is_flag=True, help="All of them have said yes.")
@click.option(
    "--board", type=click.Path(file_okay=False, path_type=Path), default=Path(),
    help="The board's folder; this one if left out.",
)
@today_option
def propose(makers: tuple[str, ...], agreed: bool, board: Path, today: date | None) -> None:
    """Write the swap that the board proposes between makers as an offer.

    Name each MAKER of the swap, as `match` and `today` do. The first makes the offer to
    the other; of a ring each parcel becomes an offer of its own. Without --agreed it
    waits for its yes like any other; with it the cards are spoken for.
    """
    from swapboard.disk.proposing import write_proposed

    proposed, problems = write_proposed(board, makers, agreed, today)
    if proposed is None:
        end(problems)
    for line in proposed.words:
        click.echo(plain(line))


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option(
    "--board", type=click.Path(file_okay=False, path_type=Path), default=Path(),
    help="The board's folder; this one if left out.",
)
@click.option("--yes", is_flag=True, help="Write without asking.")
@today_option
def take(files: tuple[str, ...], board: Path, yes: bool, today: date | None) -> None:
    """Take in what came by mail: offers, sign-ups, news of a swap, photos of cards.

    FILE is what the board's own page made, a saved mail (.eml), a mailbox of several
    (mbox), or a text; - reads what is pasted. Everything is compared with the board, you
    see what would be written and are asked; then all of it is written, or nothing. A
    known maker's mail without a form becomes posts of the cards in its pictures. The
    sender's address is kept in private/mail.csv and nowhere else.
    """
    from swapboard.disk.taking import plan_taking, read_source, write_taken

    sources, problems = [], []
    for name in files:
        if name == "-":
            sources.append(("the pasted text", _pasted()))
            continue
        data, wrong = read_source(Path(name))
        problems += wrong
        sources += [] if wrong else [(name, data)]
    end(problems)
    taken = plan_taking(board, sources, today)
    end(list(taken.problems))
    for line in taken.words:
        click.echo(plain(line))
    if not yes and not _agreed(files):
        click.echo("Nothing was written.")
        sys.exit(1)
    end(write_taken(taken))
    click.echo("Written.")


def _pasted() -> bytes:
    """What was pasted; no more than a byte beyond what is ever taken."""
    from swapboard.taking.letters import LARGEST_BOX

    return sys.stdin.buffer.read(LARGEST_BOX + 1)


def _agreed(files: tuple[str, ...]) -> bool:
    """Whether the keeper says yes; nobody can be asked where the text itself was typed."""
    if "-" in files:
        click.echo("To write this, say --yes.")
        return False
    try:
        return click.confirm("Write this?")
    except click.Abort:
        click.echo()
        return False


@click.command()
@board_argument
@click.option("--drafts", is_flag=True, help="Print the mail that goes with each errand.")
@click.option("--for", "reader", default="", metavar="MAKER", help="Only what concerns MAKER.")
@click.option("--no-proposals", is_flag=True, help="Do not look for swaps to propose.")
@today_option
@json_option
def today(
    board: Path, drafts: bool, reader: str, no_proposals: bool, today: date | None, as_json: bool
) -> None:
    """Say who owes whom what on BOARD, what to chase, and what is yours to do.

    With each goes a friendly mail, drafted: to whoever was asked, to both who have
    agreed, to those whom the board proposes a swap, to whoever is late. All of it is for
    the keeper alone.
    """
    from swapboard.disk.errands import errands_of
    from swapboard.today.report import as_data, as_text

    found = errands_of(board, today, not no_proposals, reader)
    if reader and not found.reader and not as_json:
        end(list(found.problems))
    if as_json:
        problems = [asdict(problem) for problem in found.problems]
        print_json({**as_data(found.errands, found.day, found.mails), "problems": problems})
    else:
        tell(list(found.problems))
        told = as_text(found.errands, found.day, found.mails, drafts, found.reader)
        for line in told.splitlines():
            click.echo(plain(line))
    sys.exit(1 if errors(found.problems) else 0)


COMMANDS = (take, offer, propose, today)
