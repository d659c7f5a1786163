"""Reading an order: from a TOML file, or a shipped example's name, to a checked `Order`.

Whatever is wrong with a file ends as one OrderError that names the file, the key and the remedy.
"""

import re
import tomllib
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime, time
from pathlib import Path
from typing import Any, TypeVar

from model.declared import DeclaredChoice, DeclaredText
from model.errors import DesignError, OrderError
from model.in_units import in_units
from model.order_sections import SECTIONS, Drawing, Place, Prices, Shop, Wood, usual_paper
from model.orders import example_names, example_path
from model.parameters import Declaring, Parameters
from model.written import shown, unknown

P = TypeVar("P", bound=Parameters)

#: Larger than this is no order. Bytes.
LARGEST_FILE = 1_000_000

_FIRST_KEYS = {
    "piece": 'piece = "settle"    (which design; dryfit pieces lists them)',
    "name": 'name = "my-bench"    (names the output folder: letters, digits, - and _)',
}


class DeclaredName(DeclaredText):
    """A name that is safe as a folder's."""

    kind = "name"

    def take(self, written: object, units: str) -> str:
        name = super().take(written, units)
        if not re.fullmatch(r"[A-Za-z0-9_-]{1,64}", name):
            raise OrderError(f"{shown(written)} could not name the output folder")
        return name

    def allowed(self, units: str) -> str:
        return "be 1 to 64 letters, digits, - and _"


#: How the keys before the first section are read.
HEAD = {
    "piece": DeclaredText(what="which design", default=""),
    "name": DeclaredName(what="names the output folder: letters, digits, - and _", default=""),
    "title": DeclaredText(what="what the client calls it", default="", longest=120),
    "units": DeclaredChoice(
        what="how lengths are printed, and bare numbers read",
        default="mm",
        options=("mm", "cm", "m", "in", "ft-in", "in.dec"),
    ),
}


@dataclass(frozen=True)
class Order:
    """One order as read. Sections hold millimetres; `size` is as written, for `parameters` to read."""

    piece: str
    name: str
    title: str
    units: str
    size: dict[str, Any]
    wood: Wood
    place: Place
    shop: Shop
    prices: Prices
    drawing: Drawing
    path: Path
    source: str

    @property
    def file(self) -> str:
        """The file's name without its folder: the only part of the path that is ever printed."""
        return self.path.name

    def parameters(self, cls: type[P]) -> P:
        """Return [size] as the parameters of a design, with the wood's thickness and species.

        Raises OrderError for a wrong key or value, DesignError where the values can't stand together.
        """
        context = {"thickness": self.wood.thickness, "species": self.wood.species, "units": self.units}
        with blaming(self.file):
            return cls.read(self.size, self.units, where="[size] ", given=context)

    def as_read(self) -> dict[str, Any]:
        """Return plain JSON values, defaults filled in; the sections in millimetres, [size] as written."""
        sections = {name: getattr(self, name).model_dump(mode="json") for name in SECTIONS}
        head = {key: getattr(self, key) for key in HEAD}
        return {**head, "size": _plain(self.size), **sections}


@contextmanager
def blaming(file: str, units: str = "mm") -> Iterator[None]:
    """Put the file's name before every line of an OrderError or DesignError raised inside, lengths in its units."""
    try:
        yield
    except (OrderError, DesignError) as error:
        lines = in_units(str(error), units).splitlines() or [""]
        raise type(error)("\n".join(f"{file}: {line}" for line in lines)) from None


def read_order(path_or_name: str | Path, designs: Sequence[str] | None = None) -> Order:
    """Return the order in a file, or the shipped example of that name or of that design.

    `designs` are the known pieces, all that ship by default. Raises OrderError: file, key and remedy.
    """
    path = _found(path_or_name)
    return order_from_text(_text_of(path), path, designs)


def order_from_text(source: str, path: str | Path = "order.toml", designs: Sequence[str] | None = None) -> Order:
    """Return the order in a TOML text; `path` is named in errors. Raises OrderError, as `read_order`."""
    path = Path(path)
    with blaming(path.name):
        written = _toml(source)
        _refuse_unknown(written)
        head = _head(written, designs, path.parent)
        sections = _sections(written, head["units"])
        return Order(**head, **sections, path=path, source=source)


def _found(path_or_name: str | Path) -> Path:
    path, name = Path(path_or_name), str(path_or_name)
    if _is_file(path):
        return path
    examples = example_names()
    for example in examples:
        if name in (example, _piece_of(example)):
            return example_path(example)
    raise OrderError(f"{shown(path.name)}: {unknown(path.stem, examples, 'file, and no such example')}")


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False  # too long a name, or a folder that may not be read: no file that we can have


def _piece_of(example: str) -> str:
    return str(tomllib.loads(example_path(example).read_text(encoding="utf-8"))["piece"])


def _text_of(path: Path) -> str:
    try:
        raw = path.read_bytes()
    except OSError as error:
        raise OrderError(f"{path.name}: can't be read ({error.strerror}); check its permissions") from None
    if len(raw) > LARGEST_FILE:
        raise OrderError(f"{path.name}: is larger than {LARGEST_FILE // 1000} kB; an order is a short TOML file")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = raw[: error.start]
        line, column = before.count(b"\n") + 1, error.start - before.rfind(b"\n")
        raise OrderError(f"{path.name}: is not UTF-8 text at line {line}, column {column}; save it as UTF-8") from None


def _toml(source: str) -> dict[str, Any]:
    try:
        return tomllib.loads(source)
    except RecursionError:
        raise OrderError("is not TOML that can be read: lists are nested too deeply") from None
    except ValueError as error:
        raise OrderError(f"is not TOML: {_where(str(error), source)}; {_TOML_REMEDY}") from None


_TOML_REMEDY = 'each line is a [section], or key = value with text in "quotes"'


def _where(message: str, source: str) -> str:
    """Return tomllib's message with a line and a column in it, the end of the file included."""
    lines = source.splitlines() or [""]
    return message.replace("(at end of document)", f"(at line {len(lines)}, column {len(lines[-1]) + 1})")


def _refuse_unknown(written: dict[str, Any]) -> None:
    known = [*HEAD, "size", *SECTIONS]
    troubles = []
    for key, value in written.items():
        if key not in known:
            name, kind = (f"[{key}]", "section") if isinstance(value, dict) else (key, "key")
            troubles.append(f"{name}: {unknown(key, known, kind)}")
    if troubles:
        raise OrderError("\n".join(troubles))


def _head(written: dict[str, Any], designs: Sequence[str] | None, folder: Path) -> dict[str, Any]:
    for key, example in _FIRST_KEYS.items():
        if key not in written:
            raise OrderError(f"{key} is missing; add a first line such as  {example}")
    head = {key: _head_value(key, written[key]) if key in written else said.default for key, said in HEAD.items()}
    known = _shipped_designs() if designs is None else designs
    if not _is_known(head["piece"], known, folder):
        if head["piece"].endswith(".py"):
            raise OrderError(
                f"piece = {shown(head['piece'])}: there is no such script; give its path from the order's own folder"
            )
        raise OrderError(f"piece = {shown(head['piece'])}: {unknown(head['piece'], known, 'piece')}")
    return head | {"title": head["title"] or head["name"]}


def _is_known(piece: str, designs: Sequence[str], folder: Path) -> bool:
    """Whether it ships, or is a script of the maker's own beside the order."""
    return piece in designs or (piece.endswith(".py") and _is_file(folder / piece))


def _head_value(key: str, written: object) -> Any:
    try:
        return HEAD[key].read(written, "mm")
    except OrderError as trouble:
        raise OrderError(f"{key} = {shown(written)}: {trouble}") from None


def _shipped_designs() -> Sequence[str]:
    from model.pieces import design_names

    return design_names()


def _sections(written: dict[str, Any], units: str) -> dict[str, Any]:
    tables = {name: written.get(name, {}) for name in ("size", *SECTIONS)}
    for name, table in tables.items():
        if not isinstance(table, dict):
            raise OrderError(f"{name} = {shown(table)}: must be a section: a line [{name}], its keys below it")
    tables["drawing"] = {"paper": usual_paper(units)} | tables["drawing"]
    return {"size": tables["size"]} | {name: _section(name, tables[name], units) for name in SECTIONS}


def _section(name: str, table: dict[str, Any], units: str) -> Declaring:
    try:
        return SECTIONS[name].read(table, units, where=f"[{name}] ")
    except OrderError as trouble:
        told = str(trouble)
        raise OrderError(told if told.startswith("[") else f"[{name}] {told}") from None


def _plain(value: Any) -> Any:
    match value:
        case dict():
            return {key: _plain(item) for key, item in value.items()}
        case list():
            return [_plain(item) for item in value]
        case datetime() | date() | time():
            return value.isoformat()
        case float() if value != value or value in (float("inf"), float("-inf")):
            return str(value)
        case _:
            return value
