"""Whatever a board went through, its site is what a clean build gives."""

import random
import shutil

import pytest

from boards import DEMO_DAY, files_of
from swapboard.site.build import build_board


def edit_title(board, rng):
    post = rng.choice(sorted((board / "cards").glob("*.md")))
    text = post.read_text("utf-8")
    post.write_text(f"{text}\n\nAnd a line more, {rng.randrange(1000)}.\n", "utf-8")


def rename_card(board, rng):
    """Only cards that no other post names can be renamed without other edits."""
    texts = {p: p.read_text("utf-8") for p in board.glob("*/*.md")}
    free = [
        post
        for post in sorted((board / "cards").glob("*.md"))
        if not any(post.stem in text for other, text in texts.items() if other != post)
    ]
    if free:
        post = rng.choice(free)
        post.rename(post.with_name(f"renamed-{rng.randrange(10**6)}.md"))


def delete_page_or_offer(board, rng):
    posts = sorted((board / "offers").glob("*.md")) + sorted((board / "pages").glob("*.md"))
    if posts:
        rng.choice(posts).unlink()


def add_card(board, rng):
    name = f"added-{rng.randrange(10**6)}"
    theme = rng.choice(["birds", "night", "a theme of its own", "Ünïcode thème"])
    text = f"Title: Added {name}\nThemes: {theme}\nMedia: linocut\n\nSome *words*.\n"
    (board / "cards" / f"{name}.md").write_text(text, "utf-8")


def add_page(board, rng):
    name = f"page-{rng.randrange(10**6)}"
    (board / "pages" / f"{name}.md").write_text(f"Title: {name}\n\nHello.\n", "utf-8")


def rename_board(board, rng):
    file = board / "board.toml"
    lines = file.read_text("utf-8").splitlines()
    lines = [f'name = "Board {rng.randrange(99)}"' if x.startswith("name") else x for x in lines]
    file.write_text("\n".join(lines) + "\n", "utf-8")


def touch_nothing(board, rng):
    """A build of an unchanged board is part of a history too."""


CHANGES = [edit_title, edit_title, rename_card, delete_page_or_offer, add_card, add_card,
           add_page, rename_board, touch_nothing]


@pytest.mark.parametrize("seed", range(6))
def test_a_history_of_changes_ends_like_a_clean_build(piece_board, tmp_path, seed):
    """After every random edit, renaming, deletion and addition, to the byte."""
    rng = random.Random(seed)
    for step in range(6):
        if step:
            for change in rng.sample(CHANGES, 2):
                change(piece_board, rng)
        built = build_board(piece_board, today=DEMO_DAY, workers=1)
        assert built.done, "\n".join(map(str, built.problems))
    clean = tmp_path / "clean"
    left_out = shutil.ignore_patterns("output", "trees", "staging*")
    shutil.copytree(piece_board, clean, ignore=left_out)
    assert build_board(clean, today=DEMO_DAY, workers=1).done
    assert files_of(piece_board / "output") == files_of(clean / "output")
