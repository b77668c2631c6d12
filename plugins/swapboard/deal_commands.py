"""The commands that deal a call's cards: freeze, deal, mend, open, verify."""

import sys
from dataclasses import asdict
from datetime import date
from pathlib import Path

import click

from swapboard.terminal import (
    at_work,
    board_argument,
    board_option,
    day_option,
    end,
    json_option,
    plain,
    print_json,
    say,
    tell,
)


@click.command()
@click.argument("call")
@board_option
@click.option("--anew", is_flag=True, help="Give up what was frozen before; it stays published.")
@click.option("--because", default="", help="Why it is frozen anew, in a few words.")
@day_option
def commit(call: str, board: Path, anew: bool, because: str, today: date | None) -> None:
    """Freeze the list of CALL and bind yourself to a secret, before the cards are dealt.

    What binds you stands in calls/CALL.deal.json and on the call's page: the list and
    the secret's SHA-256. The secret is kept in private/deals/.
    """
    from swapboard.disk.commitments import commit_call

    known = at_work(board, lambda: commit_call(board, call, today, anew, because))
    tell(list(known.problems))
    click.echo(plain(f"{known.record.path}: frozen on {known.record.frozen}."))
    click.echo(f"Bound to the secret with SHA-256 {known.record.commitment}")
    if known.arrivals.missing:
        missing = "; ".join(known.arrivals.missing)
        click.echo(plain(f"Not in it, since nothing has arrived: {missing}"))
    if known.frozen.public:
        click.echo(plain(f"Deal it once this is out: {known.frozen.public}"))


@click.command()
@click.argument("call")
@board_argument
@click.option("--value", default="", help="The public value that completes the seed, if any.")
@day_option
@json_option
def deal(call: str, board: Path, value: str, today: date | None, as_json: bool) -> None:
    """Deal what has arrived for CALL, so that everybody can verify it later.

    If its list is not frozen yet, it is now: a secret is drawn and kept in
    private/deals/; the same list gives the same deal. What is printed is for the host
    alone.
    """
    from swapboard.disk.deals import as_data, deal_call, in_words

    made = deal_call(board, call, value, today)
    if as_json:
        found = [asdict(problem) for problem in made.problems]
        print_json({**as_data(call, made), "problems": found})
    else:
        tell(made.problems)
        for line in in_words(call, made) if made.deal else ():
            click.echo(plain(line))
    sys.exit(0 if made.deal and made.deal.possible else 1)


def _lost(context: object, option: object, values: tuple[str, ...]) -> list[tuple[str, int]]:
    found = []
    for value in values:
        maker, colon, number = value.rpartition(":")
        if not colon or not number.isascii() or not number.isdigit() or len(number) > 6:
            raise click.BadParameter(f'must be a maker and a number, like ada:2 (got "{value}")')
        found.append((maker, int(number)))
    return found


@click.command()
@click.argument("call")
@board_option
@click.option("--lost", multiple=True, callback=_lost, metavar="MAKER:NUMBER",
              help="A card that is gone, by its number in the maker's pile.")
@click.option("--because", default="", help="Why, in a few words; it is published.")
@day_option
@json_option
def repair(call: str, board: Path, lost: list[tuple[str, int]], because: str,
           today: date | None, as_json: bool) -> None:
    """Bring the deal of CALL in line with what has arrived by now, or was lost.

    Sealed and mailed envelopes stay as they are, and as few others as can be change;
    your own spare cards go first. That a repair was made is published, who gets what is
    not. What is printed is for the host alone.
    """
    from swapboard.disk.repairs import as_data, in_words, repair_call

    made = at_work(board, lambda: repair_call(board, call, lost, because, today))
    if as_json:
        return print_json({**as_data(call, made), "problems": [asdict(p) for p in made.warnings]})
    tell(list(made.warnings))
    for line in in_words(made):
        click.echo(plain(line))
    return None


@click.command("open")
@click.argument("call")
@board_option
@click.option("--early", is_flag=True, help="Though not every envelope is mailed.")
@click.option("--tell", "pairs", multiple=True, metavar="MAKER,MAKER",
              help="A pair kept apart that both agreed to tell.")
@day_option
def open_deal(call: str, board: Path, early: bool, pairs: tuple[str, ...],
              today: date | None) -> None:
    """Open the deal of CALL: the secret, and who got what, become public."""
    from swapboard.disk.round_marks import show_deal

    agreed = [tuple(part.strip() for part in pair.split(",")) for pair in pairs]
    if any(len(pair) != 2 for pair in agreed):
        raise click.UsageError("--tell takes two makers with a comma between, like ada,ben")
    say(at_work(board, lambda: show_deal(board, call, early, agreed, today)))


@click.command()
@click.argument("proof")
@board_option
def verify(proof: str, board: Path) -> None:
    """Check a deal: PROOF is the file that its page offers, or a call of the board.

    Ends with exit code 1 where a step of the check fails.
    """
    from swapboard.dealing.proof_check import FAILS
    from swapboard.disk.call_edit import CallRefused
    from swapboard.disk.trouble import problem_of
    from swapboard.disk.verify_deal import verify_deal

    try:
        steps = verify_deal(proof, board)
    except CallRefused as refused:
        return end(refused.problems)
    except OSError as error:
        return end([problem_of(error, proof)])
    for step in steps:
        click.echo(plain(f"{step.result}: {step.what}"))
    return sys.exit(1 if any(step.result == FAILS for step in steps) else 0)


@click.command()
@click.argument("call")
@board_option
@day_option
def table(call: str, board: Path, today: date | None) -> None:
    """Write the sheet for CALL held in person: who comes; once dealt, the deal to read out.

    It is for the host's eyes, so it is kept in private/tables/; print it from a browser.
    """
    from swapboard.disk.table_sheet import write_table_sheet

    page, problems = at_work(board, lambda: write_table_sheet(board, call, today))
    tell(problems)
    click.echo(plain(f"To print: {page}"))


COMMANDS = (commit, deal, repair, open_deal, verify, table)
