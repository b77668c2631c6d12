"""The parts of making an environment: advice, variables, paths written anew."""

import os
import sys

import pytest

import environment
from stand_in import Maker


@pytest.mark.parametrize(
    ("release", "as_root", "expected"),
    [
        ("ID=debian\n", True, ": apt-get update && apt-get install python{0}-venv"),
        (
            'ID=ubuntu\nID_LIKE="debian"\n',
            False,
            ": sudo apt-get update && sudo apt-get install python{0}-venv",
        ),
        (
            'ID="mint"\nID_LIKE="ubuntu debian"\n',
            True,
            ": apt-get update && apt-get install python{0}-venv",
        ),
        ("ID=fedora\n", True, "install your Python's venv module"),
    ],
)
def test_advice_names_the_package_of_this_python(tmp_path, release, as_root, expected):
    """On Debian and its kin the advice is one apt-get line with this Python's version."""
    file = tmp_path / "os-release"
    file.write_text(release)
    version = f"{sys.version_info.major}.{sys.version_info.minor}"
    assert environment.venv_advice(file, as_root).endswith(expected.format(version))


def test_a_missing_ensurepip_is_answered_with_the_advice(tmp_path, monkeypatch):
    """Without ensurepip nothing is tried: the line that installs it is the answer."""
    find = environment.importlib.util.find_spec
    monkeypatch.setattr(
        environment.importlib.util,
        "find_spec",
        lambda name: None if name == "ensurepip" else find(name),
    )
    (tmp_path / "pyproject.toml").touch()
    with pytest.raises(environment.Trouble) as caught:
        environment.ensure(tmp_path, (), lambda text: None)
    assert str(caught.value) == environment.venv_advice()
    assert list(tmp_path.glob(".venv*")) == [tmp_path / ".venv.lock"]


def test_variables_that_lead_astray_are_not_handed_on():
    """PYTHONPATH and pip's own targets do not reach the environment; a proxy does."""
    given = {"PYTHONPATH": "/x", "PIP_TARGET": "/y", "PIP_USER": "1", "HTTPS_PROXY": "p"}
    handed_on = environment.clean(given)
    assert handed_on["HTTPS_PROXY"] == "p"
    assert handed_on["PIP_USER"] == "0"
    assert not {"PYTHONPATH", "PIP_TARGET"} & set(handed_on)


def test_links_and_machine_code_are_not_rewritten(tmp_path):
    """Only text in bin/ is given the new place: links and binary programs keep their bytes."""
    aside, place = tmp_path / "aside", tmp_path / "place"
    Maker().make(aside)
    machine_code = b"\x7fELF\0" + os.fsencode(aside)
    (aside / "bin" / "program").write_bytes(machine_code)
    (tmp_path / "outside").write_text(str(aside))
    (aside / "bin" / "link").symlink_to(tmp_path / "outside")
    environment.relocate(aside, place)
    assert (aside / "bin" / "program").read_bytes() == machine_code
    assert (tmp_path / "outside").read_text() == str(aside)
    assert (aside / "pyvenv.cfg").read_text() == f"command = python -m venv {place}\n"
