"""board.toml as frozen dataclasses, one per table; unknown keys are refused.

tables        the dataclasses, and SETTINGS, which documents every key
reader        text → settings, or problems with their lines
checks        what single texts have to be: address, language, time zone
toml_lines    where each key stands
text          the table in the docs and a new board's file, made from SETTINGS
"""

from swapboard.settings.reader import read_settings
from swapboard.settings.tables import (
    FORMAT,
    PATH,
    SETTINGS,
    TABLES,
    BoardSettings,
    ListSettings,
    PhotoSettings,
    Setting,
    Settings,
    SwapSettings,
    Words,
)
from swapboard.settings.text import settings_reference, starter_toml

__all__ = [
    "FORMAT",
    "PATH",
    "SETTINGS",
    "TABLES",
    "BoardSettings",
    "ListSettings",
    "PhotoSettings",
    "Setting",
    "Settings",
    "SwapSettings",
    "Words",
    "read_settings",
    "settings_reference",
    "starter_toml",
]
