"""The help of every command, as the README shows it."""

import click

from swapboard.cli import main

WIDTH = 88


def all_commands() -> dict[str, click.Command]:
    """Every command that does something, by its full name, in the order of the help."""
    found: dict[str, click.Command] = {}

    def visit(name: str, command: click.Command) -> None:
        if isinstance(command, click.Group):
            for inner, below in sorted(command.commands.items()):
                visit(f"{name} {inner}", below)
        else:
            found[name] = command

    visit("swapboard", main)
    return found


def help_text() -> str:
    """The README's list of commands: each one's help as the terminal shows it."""
    parts = []
    for name, command in all_commands().items():
        context = click.Context(
            command, info_name=name, terminal_width=WIDTH, max_content_width=WIDTH,
            help_option_names=["-h", "--help"],
        )
        parts.append(command.get_help(context).strip())
    return "```\n" + "\n\n\n".join(parts) + "\n```"
