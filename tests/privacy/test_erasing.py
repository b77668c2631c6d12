"""An address is proposed for erasing when nobody needs it any more."""

from datetime import date, timedelta

from hostile.small_board import make
from swapboard.disk.erasing import addresses_to_erase
from swapboard.disk.errands import errands_of
from swapboard.disk.load import load_board

FILES = {
    "board.toml": 'format = 1\n\n[board]\nname = "Small board"\n',
    "makers/keeper.md": "Name: The keeper\n", "makers/ada.md": "Name: Ada\n",
    "calls/leaf.md": "Title: Leaf\nHost: keeper\nSend: 2\nMail out by: 2026-03-01\n",
    "calls/leaf.people.csv": "maker,cards\nada,2\n",
    "private/addresses.csv": "maker,street,town,country\nada,12 Mill Lane,Vale,GB\n",
}  # fmt: skip


def test_an_address_is_kept_sixty_days_after_the_last_call(tmp_path):
    """Not on the day before, on the day, and not while another call runs."""
    board, end = make(tmp_path / "b", FILES), date(2026, 3, 1)
    assert addresses_to_erase(load_board(board, end + timedelta(days=59))) == ()
    (due,) = addresses_to_erase(load_board(board, end + timedelta(days=60)))
    assert (due.maker, due.call, due.due) == ("ada", "leaf", date(2026, 4, 30))
    make(board, {"calls/next.md": "Title: Next\nHost: keeper\nSend: 1\nMail out by: 2027-01-01\n",
                 "calls/next.people.csv": "maker,cards\nada,1\n"})
    assert addresses_to_erase(load_board(board, end + timedelta(days=90))) == ()


def test_today_proposes_it_to_the_keeper(tmp_path):
    """As an errand of the keeper's own, without the address; erased it is by hand."""
    board = make(tmp_path / "b", FILES)
    told = errands_of(board, date(2026, 5, 1), proposals=False).errands
    (erase,) = [errand for errand in told if "erase the address" in errand.what]
    assert (erase.about, erase.who, erase.since) == ("calls/leaf.md", (), date(2026, 4, 30))
    assert "ada" in erase.what and "Mill" not in erase.what
