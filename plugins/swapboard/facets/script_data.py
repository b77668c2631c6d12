"""Data for the browser as a classic script: it loads from file:// too, where fetch does not."""

import json
from typing import Any

_UNSAFE = (("<", "\\u003c"), ("\u2028", "\\u2028"), ("\u2029", "\\u2029"))


def script_call(function: str, data: Any) -> str:
    """JavaScript that calls `function` with `data`.

    The text never holds "</" or "<!", so it is inert wherever it is pasted;
    U+2028 and U+2029 are escaped for old engines.
    """
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    for unsafe, safe in _UNSAFE:
        text = text.replace(unsafe, safe)
    return f"{function}({text});\n"
