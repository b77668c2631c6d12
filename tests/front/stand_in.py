"""What stands in for venv and pip where the real ones would be slow."""


class Maker:
    """Stands in for venv and pip: makes a few files quickly and remembers being asked."""

    def __init__(self, failing_with=None):
        self.failing_with = failing_with
        self.asked = []

    def make(self, aside):
        (aside / "bin").mkdir(parents=True)
        (aside / "bin" / "python").write_text("stands in for Python\n")
        (aside / "bin" / "tool").write_text(f"#!{aside}/bin/python\n")
        (aside / "pyvenv.cfg").write_text(f"command = python -m venv {aside}\n")

    def install(self, aside, root, extras):
        self.asked.append(extras)
        if self.failing_with:
            raise self.failing_with
