"""Templates compiled once for all builds of a run: the preview makes many, and so do tests.

They are kept in memory and never in the board's folder: whoever handed somebody a board could
else hand them a program with it.
"""

from types import CodeType

from jinja2.bccache import Bucket, BytecodeCache


class KeptTemplates(BytecodeCache):
    """Compiled templates by their names and sources, for environments that are set up alike."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, str], CodeType] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Give `bucket` its code, where this source was compiled before."""
        bucket.code = self._kept.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep the code of `bucket`."""
        self._kept[bucket.key, bucket.checksum] = bucket.code


KEPT = KeptTemplates()
