"""Every command is documented, in the words that its own help uses."""

from pathlib import Path

import click
from click.testing import CliRunner

from help_text import all_commands, help_text
from swapboard.cli import main

README = Path(__file__).resolve().parents[2] / "README.md"
START, END = "<!-- commands -->\n", "\n<!-- /commands -->"


def test_the_readme_has_the_help_of_every_command(request):
    """The list between the marks is the help as it is now; --refresh-docs writes it."""
    text = README.read_text("utf-8")
    before, rest = text.split(START, 1)
    kept, after = rest.split(END.strip("\n"), 1)
    if request.config.getoption("--refresh-docs"):
        README.write_text(f"{before}{START}{help_text()}{END}{after}", "utf-8")
        kept = help_text() + "\n"
    assert kept.strip() == help_text()


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
