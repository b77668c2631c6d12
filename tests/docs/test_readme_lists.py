"""Every command and setting is documented, in the words that it uses itself."""

from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from help_text import all_commands, help_text
from swapboard.cli import main
from swapboard.settings import settings_reference

README = Path(__file__).resolve().parents[2] / "README.md"


@pytest.mark.parametrize(
    ("part", "words"), [("commands", help_text), ("settings", settings_reference)]
)
def test_the_readme_has_every_command_and_setting(request, part, words):
    """What stands between the marks is as it is now; --refresh-docs writes it."""
    start, end = f"<!-- {part} -->\n", f"<!-- /{part} -->"
    before, rest = README.read_text("utf-8").split(start, 1)
    kept, after = rest.split(end, 1)
    if request.config.getoption("--refresh-docs"):
        kept = words().strip("\n") + "\n"
        README.write_text(f"{before}{start}{kept}{end}{after}", "utf-8")
    assert kept.strip() == words().strip()


def test_every_option_says_what_it_is_for():
    """No command or option is left without a word."""
    for name, command in all_commands().items():
        assert command.help, name
        for option in command.params:
            if isinstance(option, click.Option):
                assert option.help, f"{name} {option.name}"


def test_help_opens_for_every_command():
    """Each command answers --help, and -h."""
    for name in all_commands():
        for asked in ("--help", "-h"):
            done = CliRunner().invoke(main, [*name.split()[1:], asked])
            assert done.exit_code == 0 and "Usage:" in done.output
