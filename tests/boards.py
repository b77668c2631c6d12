"""Boards for tests to build, and how to compare what was built."""

import re
import shutil
from datetime import date
from pathlib import Path

REPO = Path(__file__).resolve().parents[1]
DEMO = REPO / "site_demo"
DEMO_DAY = date(2026, 10, 10)
# One agreed, one proposed, two of which one overtook the other, two cards for two.
PIECE = ("boats-for-the-hen", "moth-for-bats", "owl-for-fish", "fish-for-fish",
         "clocks-for-thunder")  # fmt: skip
BOARD_PARTS = ("cards", "makers", "calls", "offers", "pages", "photos")


def copy_of_demo(folder: Path) -> Path:
    """The demo's posts and photos in `folder`, with nothing built."""
    folder.mkdir(parents=True, exist_ok=True)
    shutil.copy(DEMO / "board.toml", folder)
    for part in BOARD_PARTS:
        shutil.copytree(DEMO / part, folder / part)
    return folder


def piece_of_demo(board: Path) -> Path:
    """Of a copy of the demo leave what will do where its size is not the point.

    Its makers, calls and pages, the offers of `PIECE`, the cards in those and every ninth of
    the others, with their photos; lists are short, so that some still have several sheets.
    """
    offers = {post: post.read_text("utf-8") for post in (board / "offers").glob("*.md")}
    kept = {post for post in offers if post.stem in PIECE}
    swapped = " ".join(re.findall(r"(?m)^(?:Gives|Asks): (.*)", "".join(offers[p] for p in kept)))
    cards = sorted((board / "cards").glob("*.md"))
    others = [post for post in cards if post.stem not in re.split(r"[, ]+", swapped)]
    kept |= {*cards} - {*others} | {*others[::9]}
    photos = {name for post in kept for name in
              re.findall(r"(?m)^(?:Photo|Back): (\S+)", post.read_text("utf-8"))}  # fmt: skip
    for file in [*offers, *cards, *(board / "photos").iterdir()]:
        if file not in kept and file.name not in photos:
            file.unlink()
    settings = board / "board.toml"
    few = re.sub(r"(?m)^cards_per_page = .*", "cards_per_page = 4", settings.read_text("utf-8"))
    settings.write_text(few, "utf-8")
    return board


def board_in(folder: Path, built: Path) -> Path:
    """The board of `built` in `folder`: posts, photos and their cache, and nothing built."""
    folder.mkdir()
    shutil.copy(built / "board.toml", folder)
    for part in BOARD_PARTS:
        shutil.copytree(built / part, folder / part)
    state = folder / ".swapboard"
    shutil.copytree(built / ".swapboard" / "cache", state / "cache")
    for swaps in (built / ".swapboard").glob("swaps-*.json"):
        shutil.copy(swaps, state)
    return folder


def files_of(folder: Path) -> dict[str, bytes]:
    """Every file below `folder` with its bytes."""
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    }
