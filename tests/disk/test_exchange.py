"""Two folders change places in one step, and a half-done step is finished later."""

import contextlib
import sys
from pathlib import Path

import pytest

from swapboard.disk import exchange


def site(folder: Path, word: str) -> Path:
    folder.mkdir()
    (folder / "index.html").write_text(word)
    return folder


def word_in(folder: Path) -> str:
    return (folder / "index.html").read_text()


def test_both_folders_change_places(tmp_path):
    """What was new is live, and what was live is where the new was."""
    new, live = site(tmp_path / "new", "new"), site(tmp_path / "live", "old")
    exchange.exchange(new, live, tmp_path / "aside")
    assert (word_in(live), word_in(new)) == ("new", "old")
    assert not (tmp_path / "aside").exists()


def test_first_site_is_moved_into_place(tmp_path):
    """Where nothing is live yet, the new folder just takes the place."""
    new = site(tmp_path / "new", "new")
    exchange.exchange(new, tmp_path / "deep" / "live", tmp_path / "aside")
    assert word_in(tmp_path / "deep" / "live") == "new"
    assert not new.exists()


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="renameat2 is Linux's own")
def test_linux_swaps_in_one_call(tmp_path):
    """On Linux the kernel swaps, so there is no moment without a site."""
    new, live = site(tmp_path / "new", "new"), site(tmp_path / "live", "old")
    assert exchange._renameat2(new, live)
    assert word_in(live) == "new"


@pytest.mark.parametrize("steps", [0, 1, 2, 3])
def test_exchange_by_renames_heals_after_any_step(tmp_path, monkeypatch, steps):
    """Cut off after any rename, the next run finds one whole site live."""
    new, live = site(tmp_path / "new", "new"), site(tmp_path / "live", "old")
    aside = tmp_path / "aside"
    done = 0
    real = exchange.os.rename

    def rename(source, target):
        nonlocal done
        if done == steps:
            raise KeyboardInterrupt
        done += 1
        real(source, target)

    monkeypatch.setattr(exchange.os, "rename", rename)
    with contextlib.suppress(KeyboardInterrupt):
        exchange.exchange_by_renames(new, live, aside)
    monkeypatch.undo()
    exchange.heal(new, live, aside)
    assert word_in(live) == ("old" if steps == 0 else "new")
    assert word_in(new) == ("new" if steps == 0 else "old")
    assert not aside.exists()


def test_heal_leaves_a_whole_state_alone(tmp_path):
    """With no half-done exchange there is nothing to do."""
    new, live = site(tmp_path / "new", "new"), site(tmp_path / "live", "old")
    exchange.heal(new, live, tmp_path / "aside")
    assert (word_in(live), word_in(new)) == ("old", "new")
