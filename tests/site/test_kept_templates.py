"""Templates are compiled once in a run, and anew when they change."""

from jinja2 import DictLoader, Environment

from swapboard.site.kept_templates import KeptTemplates


def drawn(kept, templates, compiled):
    """What page.html draws in an environment of its own; `compiled` notes what was compiled."""
    environment = Environment(loader=DictLoader(templates), bytecode_cache=kept)
    compile_one = environment.compile
    environment.compile = lambda source, name, *more: (
        compiled.append(name) or compile_one(source, name, *more))  # fmt: skip
    return environment.get_template("page.html").render()


def test_the_next_build_compiles_only_what_changed():
    """A second environment takes what the first compiled, but for a template whose text is new."""
    kept, compiled = KeptTemplates(), []
    templates = {"page.html": "{% include 'part.html' %}!", "part.html": "one"}
    assert drawn(kept, templates, compiled) == "one!"
    assert drawn(kept, templates, compiled) == "one!"
    assert compiled == ["page.html", "part.html"]
    assert drawn(kept, {**templates, "part.html": "two"}, compiled) == "two!"
    assert compiled == ["page.html", "part.html", "part.html"]
