"""The same with the real venv and pip, without a network."""

import subprocess
import zipfile

import pytest

import environment


def small_wheel(folder):
    """A wheel with one console script, `greet`, written by hand."""
    path = folder / "small-1.0-py3-none-any.whl"
    info = "small-1.0.dist-info"
    files = {
        "small.py": "def greet():\n    print('hello from', __file__)\n",
        f"{info}/METADATA": "Metadata-Version: 2.1\nName: small\nVersion: 1.0\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
        f"{info}/entry_points.txt": "[console_scripts]\ngreet = small:greet\n",
    }
    files[f"{info}/RECORD"] = "".join(f"{name},,\n" for name in [*files, f"{info}/RECORD"])
    with zipfile.ZipFile(path, "w") as wheel:
        for name, text in files.items():
            wheel.writestr(name, text)
    return path


@pytest.fixture(scope="module")
def root(tmp_path_factory):
    """A project with a real environment; its folder's name holds a space."""
    root = tmp_path_factory.mktemp("a project with spaces")
    (root / "pyproject.toml").write_text('[project]\nname = "small"\n')
    wheel = small_wheel(root)

    def install(aside, root, extras):
        pip = [str(aside / "bin" / "python"), "-m", "pip", "install", "-q", "--no-index"]
        subprocess.run([*pip, str(wheel)], check=True)

    environment.ensure(root, (), lambda text: None, install=install)
    return root


def said(*command):
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def test_pip_works_in_its_final_place(root):
    """pip runs as a module and as a script, from the folder .venv."""
    place = root.resolve() / ".venv"
    assert f"from {place}/lib" in said(place / "bin" / "python", "-m", "pip", "--version")
    assert f"from {place}/lib" in said(place / "bin" / "pip", "--version")


def test_a_console_script_works_in_its_final_place(root):
    """A script installed while the environment lay aside runs after the rename."""
    place = root.resolve() / ".venv"
    assert said(place / "bin" / "greet").startswith(f"hello from {place}/lib")


def test_activating_leads_to_it(root):
    """A shell that activates the environment finds its Python."""
    place = root.resolve() / ".venv"
    shell = said("bash", "-c", '. "$1/bin/activate" && command -v python', "bash", place)
    assert shell.strip() == f"{place}/bin/python"


def test_no_text_names_the_folder_aside(root):
    """Scripts, settings and package records name the final place only."""
    named = [
        path
        for path in (root / ".venv").rglob("*")
        if path.is_file() and path.suffix != ".pyc" and b".venv.new-" in path.read_bytes()
    ]
    assert named == []


def test_a_pip_that_fails_leaves_the_old_environment_working(root, monkeypatch, capfd):
    """With no package index pip's words are shown, and the old environment stays and works."""
    monkeypatch.setenv("PIP_NO_INDEX", "1")
    monkeypatch.setenv("PIP_CONFIG_FILE", "/dev/null")
    (root / "pyproject.toml").write_text(
        '[build-system]\nrequires = ["no-such-builder"]\nbuild-backend = "no_such_builder"\n'
        '[project]\nname = "small"\nversion = "2"\n'
    )
    with pytest.raises(environment.Trouble, match="Nothing was changed"):
        environment.ensure(root, (), lambda text: None)
    assert "no-such-builder" in capfd.readouterr().err
    assert sorted(path.name for path in root.glob(".venv*")) == [".venv", ".venv.lock"]
    assert said(root / ".venv" / "bin" / "greet").startswith("hello")
