"""The commands by which a host gathers a round: places, parcels, envelopes, dates, its end."""

from datetime import date
from pathlib import Path

import click

from swapboard.terminal import (
    Day,
    at_work,
    board_option,
    day_option,
    say,
)


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

    say(at_work(board, lambda: join_call(board, call, maker, cards, places, today)))


@click.command()
@click.argument("call")
@click.argument("maker")
@board_option
@day_option
def leave(call: str, maker: str, board: Path, today: date | None) -> None:
    """Note that MAKER drops out of CALL; say who waits for the place."""
    from swapboard.disk.round_people import leave_call

    say(at_work(board, lambda: leave_call(board, call, maker, today)))


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
    say(at_work(board, lambda: note_arrival(board, call, maker, parcel, today)))


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
        say(at_work(board, lambda: mark_envelopes(board, call, makers, what, everybody, today)))

    return mark


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

    say(at_work(board, lambda: end_call(board, call, what or "closed", today)))


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
    say(at_work(board, lambda: extend_call(board, call, days, today)))


COMMANDS = (
    join, leave, arrive, close, extend,
    _envelope_command("sealed", "Mark envelopes of CALL as sealed: a repair leaves them alone."),
    _envelope_command("mailed", "Mark envelopes of CALL as mailed to MAKERS."),
    _envelope_command("received", "Mark envelopes of CALL as received by MAKERS."),
    _envelope_command("lost", "Mark envelopes of CALL to MAKERS as lost on their way."),
)  # fmt: skip
