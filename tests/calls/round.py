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


def _announce(host, seen):
    host.says(
        "add", "call", "Small lights", "--theme", "small lights", "--send", "4", "--receive", "3",
        "--places", "7", "--sign-up-by", "2026-09-20", "--arrive-by", "2026-10-20",
        "--mail-out-by", "2026-11-05", "--two-places", "yes",
        "--public-value", "the draw of 25 October", "--today", "2026-09-01",
    )  # fmt: skip
    host.builds("2026-09-01")
    seen["announced"] = host.page("calls/small-lights.html")


def _sign_up(host, seen):
    host.says("join", "small-lights", "hana", "--today", "2026-09-01")
    for maker in MAKERS[:5]:
        host.says("join", "small-lights", maker, "--today", "2026-09-05")
    host.says("join", "small-lights", "Aunt Pim", "--today", "2026-09-06")
    seen["full"] = host.says("join", "small-lights", "fay", "--today", "2026-09-07")
    host.builds("2026-09-10")
    seen["signing up"] = host.page("calls/small-lights.html")


def _gather(host, seen):
    seen["left"] = host.says("leave", "small-lights", "eli", "--today", "2026-09-30")
    host.says("join", "small-lights", "fay", "--today", "2026-09-30")
    host.says("arrive", "small-lights", "hana", "--today", "2026-10-01")
    host.says("arrive", "small-lights", "ada", "4", "--today", "2026-10-10")
    host.builds("2026-10-10")
    seen["arriving"] = host.page("calls/small-lights.html")
    host.says("arrive", "small-lights", "ben", "--today", "2026-10-12")
    seen["short"] = host.says(
        "arrive", "small-lights", "cyd", "4", "--not-own-work", "1", "--note", "a printed postcard",
        "--today", "2026-10-15",
    )  # fmt: skip
    host.says("arrive", "small-lights", "Aunt Pim", "5", "--today", "2026-10-19")
    host.says("arrive", "small-lights", "fay", "--today", "2026-10-20")
    host.says("close", "small-lights", "--run-short", "--today", "2026-10-22")


def _freeze(host, seen):
    seen["commit"] = host.says("commit", "small-lights", "--today", "2026-10-23")
    host.builds("2026-10-23")
    seen["frozen"] = host.page("calls/small-lights.html")
    seen["early"] = host.says("open", "small-lights", "--early", fails=True)


def _deal(host, seen):
    seen["dealt"] = host.deals("small-lights", "--value", "3.9.17./", "--today", "2026-10-26")
    host.says("sealed", "small-lights", "ada", "ben", "--today", "2026-10-27")
    host.builds("2026-10-27")
    seen["page dealt"] = host.page("calls/small-lights.html")
    seen["site dealt"] = host.site_text()


def _mend(host, seen):
    seen["late"] = host.says("arrive", "small-lights", "dot", "4", "--today", "2026-10-28")
    seen["mended"] = json.loads(
        host.says("repair", "small-lights", "--because", "A parcel came late", "--json",
                  "--today", "2026-10-28")
    )  # fmt: skip
    seen["after"] = host.deals("small-lights", "--today", "2026-10-28")
    host.builds("2026-10-28")
    seen["site mended"] = host.site_text()


def _mail(host, seen):
    host.says("mailed", "small-lights", "ada", "ben", "cyd", "--today", "2026-11-01")
    seen["closed door"] = host.says("open", "small-lights", fails=True)
    host.says("mailed", "small-lights", "--all", "--today", "2026-11-03")
    host.builds("2026-11-03")
    seen["mailed"] = host.page("calls/small-lights.html")


def _open(host, seen):
    host.says("open", "small-lights", "--today", "2026-11-04")
    host.builds("2026-11-04")
    seen["opened"] = host.page("calls/small-lights.html")
    host.says("received", "small-lights", "--all", "--today", "2026-11-20")
    host.builds("2026-11-20")
    seen["received"] = host.page("calls/small-lights.html")
    host.says("close", "small-lights", "--today", "2026-11-21")
    host.builds("2026-11-21")
    seen["closed"] = host.page("calls/small-lights.html")


# A whole round; each step gets the host, and what was seen on the way, by name.
STEPS = (_announce, _sign_up, _gather, _freeze, _deal, _mend, _mail, _open)
