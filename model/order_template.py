"""A commented order to start from: every parameter and every section, with defaults, limits and meaning."""

from model.declared import Declared, DeclaredNumber
from model.order import HEAD
from model.order_sections import SECTIONS, usual_paper
from model.parameters import Declaring, Parameters
from model.written import shown


def order_template(design_name: str, cls: type[Declaring], units: str = "mm") -> str:
    """Return a TOML order for a design that reads back as its defaults; `units` as in an order.

    The parameters stand as lines to change; the shared sections are commented out, ready to be uncommented.
    """
    head = {"piece": design_name, "name": f"my-{design_name}", "title": _title(design_name), "units": units}
    lines = [f"# An order for the {design_name}: {_first_line(cls)}", "# Make it with:  dryfit make FILE", ""]
    lines += _aligned([(f"{key} = {shown(value)}", HEAD[key].what) for key, value in head.items()])
    lines += ["", "[size]", *_section(cls, units)]
    for name, section in SECTIONS.items():
        lines += ["", f"# {_first_line(section)} Take the # away from a line to change it.", f"[{name}]"]
        lines += [_offered(line, name, cls, units) for line in _section(section, units)]
    return "\n".join(lines) + "\n"


def _offered(line: str, section: str, cls: type[Declaring], units: str) -> str:
    """Return a shared section's line commented out, but for the wood of a design that is made of another by default."""
    usual = Parameters.model_fields["species"].default
    own = cls.model_fields["species"].default if "species" in cls.model_fields else usual
    if section == "wood" and line.startswith("species = ") and own != usual:
        return line.replace(shown(usual), shown(own))
    if section == "drawing" and line.startswith("paper = "):
        line = line.replace(shown(usual_paper("mm")), shown(usual_paper(units)), 1)
    return f"# {line}"


def _title(design_name: str) -> str:
    return design_name.replace("-", " ").replace("_", " ").capitalize()


def _first_line(cls: type[Declaring]) -> str:
    return (cls.__doc__ or "").strip().partition("\n")[0]


def _section(cls: type[Declaring], units: str) -> list[str]:
    return _aligned([(f"{said.name} = {said.toml(units)}", _comment(said, units)) for said in _declared(cls)])


def _declared(cls: type[Declaring]) -> list[Declared]:
    return list(cls.declared().values())


def _comment(said: Declared, units: str) -> str:
    if said.kind in ("table", "text", "species", "flag"):
        return said.what
    mark = f" ({said.mark.strip()})" if isinstance(said, DeclaredNumber) and said.mark else ""
    return f"{said.what}{mark}; {said.allowed(units).removeprefix('lie ').removeprefix('be ')}"


def _aligned(entries: list[tuple[str, str]]) -> list[str]:
    """Return `key = value  # comment` lines with the comments of short lines under one another."""
    short = [len(entry) for entry, _ in entries if len(entry) <= 44]
    column = max(short, default=0)
    return [f"{entry:<{column}}  # {comment}" for entry, comment in entries]
