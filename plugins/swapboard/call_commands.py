"""The commands by which a host runs a round, from sign-up to the last envelope."""

import sys
from collections.abc import Callable
from dataclasses import asdict
from datetime import date
from pathlib import Path
from typing import Any

import click

from swapboard.terminal import Day, board_argument, end, json_option, plain, print_json, tell

FOLDER = click.Path(file_okay=False, path_type=Path)
board_option = click.option(
    "--board", type=FOLDER, default=Path(), help="The board's folder; this one if left out."
)
day_option = click.option("--today", type=Day(), help="The day it happened; today if left out.")


def _do(board: Path, work: Callable[[], Any]) -> Any:
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


def _say(told: tuple[list[str], list]) -> None:
    words, problems = told
    for line in words:
        click.echo(plain(line))
    end(problems)


@click.command()
@click.argument("call")
@click.argument("maker")
@board_option
@click.option("--cards", type=click.IntRange(0, 1000), help="How many cards they promise.")
@click.option("--places", type=click.IntRange(1, 2), default=1, help="2 where they hold two.")
@day_option
def join(call: str, maker: str, board: Path, cards: int | None, places: int,
         today: date | None) -> None:
    """Put MAKER on the list of CALL, or on its waiting list if no place is left."""
    from swapboard.disk.round_people import join_call

    _say(_do(board, lambda: join_call(board, call, maker, cards, places, today)))


@click.command()
@click.argument("call")
@click.argument("maker")
@board_option
@day_option
def leave(call: str, maker: str, board: Path, today: date | None) -> None:
    """Note that MAKER drops out of CALL; say who waits for the place."""
    from swapboard.disk.round_people import leave_call

    _say(_do(board, lambda: leave_call(board, call, maker, today)))


@click.command()
@click.argument("call")
@click.argument("maker")
@click.argument("count", type=click.IntRange(0, 1000), required=False)
@board_option
@click.option("--cards", default="", help="The names of their posts, with commas between.")
@click.option("--wrong-size", type=click.IntRange(0), default=0, help="How many are not to size.")
@click.option("--not-own-work", type=click.IntRange(0), default=0,
              help="How many are not their own work.")
@click.option("--note", default="", help="A note for yourself; it is kept in private/.")
@day_option
def arrive(call: str, maker: str, count: int | None, board: Path, cards: str, wrong_size: int,
           not_own_work: int, note: str, today: date | None) -> None:
    """Note that COUNT cards of MAKER have arrived for CALL; all promised if left out.

    Cards that are not to size, or not their own work, are not dealt; that is noted in
    private/parcels/, never in public. Cards named by --cards stay hidden until the
    call is opened.
    """
    from swapboard.disk.round_people import Parcel
    from swapboard.disk.round_people import arrive as note_arrival

    named = tuple(name.strip() for name in cards.split(",") if name.strip())
    parcel = Parcel(count, wrong_size, not_own_work, named, note)
    _say(_do(board, lambda: note_arrival(board, call, maker, parcel, today)))


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

    known = _do(board, lambda: commit_call(board, call, today, anew, because))
    tell(list(known.problems))
    click.echo(plain(f"{known.record.path}: frozen on {known.record.frozen}."))
    click.echo(f"Bound to the secret with SHA-256 {known.record.commitment}")
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

    made = _do(board, lambda: repair_call(board, call, lost, because, today))
    if as_json:
        return print_json({**as_data(call, made), "problems": [asdict(p) for p in made.warnings]})
    tell(list(made.warnings))
    for line in in_words(made):
        click.echo(plain(line))
    return None


def _envelope_command(what: str, words: str) -> click.Command:
    @click.command(what, help=words)
    @click.argument("call")
    @click.argument("makers", nargs=-1)
    @board_option
    @click.option("--all", "everybody", is_flag=True, help="All that are not yet.")
    @day_option
    def mark(call: str, makers: tuple[str, ...], board: Path, everybody: bool,
             today: date | None) -> None:
        from swapboard.disk.round_people import mark_envelopes

        if bool(makers) == everybody:
            raise click.UsageError("name the makers, or say --all")
        _say(_do(board, lambda: mark_envelopes(board, call, makers, what, everybody, today)))

    return mark


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
    _say(_do(board, lambda: show_deal(board, call, early, agreed, today)))


@click.command()
@click.argument("call")
@board_option
@click.option("--cancelled", "what", flag_value="cancelled", help="It does not take place.")
@click.option("--run-short", "what", flag_value="run short",
              help="It goes on with fewer than hoped for.")
@day_option
def close(call: str, board: Path, what: str | None, today: date | None) -> None:
    """Write into CALL that it is closed; or cancelled, or that it runs short."""
    from swapboard.disk.round_marks import end_call

    _say(_do(board, lambda: end_call(board, call, what or "closed", today)))


@click.command()
@click.argument("call")
@board_option
@click.option("--sign-up-by", type=Day(), help="The new last day to sign up.")
@click.option("--arrive-by", type=Day(), help="The new day cards have to be there.")
@click.option("--mail-out-by", type=Day(), help="The new day they go out again.")
@day_option
def extend(call: str, board: Path, sign_up_by: date | None, arrive_by: date | None,
           mail_out_by: date | None, today: date | None) -> None:
    """Move dates of CALL; its Revision rises, so that calendars take them."""
    from swapboard.disk.round_marks import extend_call

    said = {"Sign up by": sign_up_by, "Arrive by": arrive_by, "Mail out by": mail_out_by}
    days = {key: day for key, day in said.items() if day}
    _say(_do(board, lambda: extend_call(board, call, days, today)))


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


COMMANDS = (
    verify, join, leave, arrive, commit, deal, repair, open_deal, close, extend,
    _envelope_command("sealed", "Mark envelopes of CALL as sealed: a repair leaves them alone."),
    _envelope_command("mailed", "Mark envelopes of CALL as mailed to MAKERS."),
    _envelope_command("received", "Mark envelopes of CALL as received by MAKERS."),
    _envelope_command("lost", "Mark envelopes of CALL to MAKERS as lost on their way."),
)
