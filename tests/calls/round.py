"""A small board and a host who runs a round on it by commands alone."""

import json
from pathlib import Path

from click.testing import CliRunner

from swapboard.cli import main
from swapboard.disk.start import Answers, start_board

MAKERS = ("ada", "ben", "cyd", "dot", "eli", "fay", "gus")


def new_board(folder: Path) -> Path:
    """A board with a host and seven makers, two of whom share a letter box."""
    assert start_board(folder, Answers("Reed Street", "Hana", "Portugal")) == []
    for name in MAKERS:
        home = "Household: mill lane\n" if name in ("ada", "ben") else ""
        (folder / f"makers/{name}.md").write_text(f"Name: {name.title()}\n{home}\nHello.\n")
    return folder


class Host:
    """Somebody at a terminal in front of a board."""

    def __init__(self, board: Path) -> None:
        self.board = board

    def says(self, *words: str, fails: bool = False) -> str:
        """What a command prints; it has to end well, or with an error where it `fails`."""
        done = CliRunner().invoke(main, [*words, "--board", str(self.board)])
        assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
        assert done.exit_code == (1 if fails else 0), done.output
        assert not fails or "Fix:" in done.stderr
        return done.output

    def deals(self, call: str, *words: str) -> dict:
        """The deal as JSON."""
        done = CliRunner().invoke(main, ["deal", call, str(self.board), "--json", *words])
        assert done.exit_code == 0, done.output
        return json.loads(done.stdout)

    def builds(self, today: str) -> None:
        """Build the board for a day."""
        done = CliRunner().invoke(main, ["build", str(self.board), "--today", today])
        assert done.exit_code == 0, done.output

    def page(self, path: str) -> str:
        """A page of the built site."""
        return (self.board / "output" / path).read_text("utf-8")

    def site_text(self) -> str:
        """Every text of the built site, as one."""
        files = sorted((self.board / "output").rglob("*"))
        return "\n".join(
            f.read_text("utf-8") for f in files
            if f.suffix in (".html", ".js", ".json", ".xml", ".txt", ".css")
        )  # fmt: skip

    def checks(self) -> str:
        """What `check` says."""
        return CliRunner().invoke(main, ["check", str(self.board)]).output

    def says_deal(self, call: str) -> str:
        """The deal in words."""
        return CliRunner().invoke(main, ["deal", call, str(self.board)]).output
