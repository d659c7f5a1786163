"""Kinds of declared value: each knows its default, its limits and how to read itself from an order.

A kind's `read(written, units)` returns the value in millimetres, degrees or plain numbers, and raises
OrderError with what the value must be and what is wrong with it. The key is added by whoever reads the table.
"""

from dataclasses import dataclass, replace
from typing import Any, ClassVar

from model.errors import OrderError
from model.written import bare, length, number, shown, span, spoken, text, unknown, whole

#: An example order in inches rounds lengths from here up to the rule; shorter ones stay exact. Millimetres.
LEAST_ROUNDED = 50

#: The unit of a bare number, where the order's units are only a way to print inches.
_BARE_UNIT = {"ft-in": "in", "in.dec": "in"}


@dataclass(frozen=True, kw_only=True)
class Declared:
    """What is declared about one value. `default`, `low` and `high` are in mm, degrees or plain numbers."""

    kind: ClassVar[str]
    what: str
    default: Any
    name: str = ""
    low: float | None = None
    high: float | None = None
    options: tuple[str, ...] = ()

    def named(self, name: str) -> "Declared":
        """Return the same declaration under its key."""
        return replace(self, name=name)

    def read(self, written: object, units: str) -> Any:
        """Return the value; raises OrderError with the remedy and the trouble."""
        try:
            return self.take(written, units)
        except OrderError as trouble:
            raise OrderError(f"must {self.allowed(units)}; {trouble}") from None

    def take(self, written: object, units: str) -> Any:
        """Return the value; raises OrderError with the trouble alone."""
        raise NotImplementedError

    def allowed(self, units: str) -> str:
        """Return what the value must do, to follow the word "must"."""
        raise NotImplementedError

    def toml(self, units: str) -> str:
        """Return the default as an order would write it."""
        return shown(self.default, most=1000)

    def within(self, value: float, said: str) -> Any:
        """Return `value` if it lies in the limits, both included; raises OrderError otherwise."""
        if self.low is not None and value < self.low - 1e-9:
            raise OrderError(f"{said} is below it")
        if self.high is not None and value > self.high + 1e-9:
            raise OrderError(f"{said} is above it")
        return value


class DeclaredLength(Declared):
    """A length in millimetres."""

    kind = "length"
    low: float
    high: float

    def take(self, written: object, units: str) -> Any:
        said = written if isinstance(written, str) else f"{bare(written)} {_BARE_UNIT.get(units, units)}"
        return self.within(length(written, units), said)

    def allowed(self, units: str) -> str:
        return f"lie between {span(self.low, self.high, units)}"

    def toml(self, units: str) -> str:
        return self.length_toml(self.default, units)

    def length_toml(self, mm: float, units: str) -> str:
        """Return a length as an order writes it: exactly, or to the rule where it hardly matters."""
        if units == "mm":
            return bare(mm)
        printed = spoken(mm, units)
        read = length(printed, units)
        if abs(read - mm) < 1e-9 or (mm >= LEAST_ROUNDED and self.low <= read <= self.high):
            return shown(printed)
        return shown(f"{bare(mm)} mm")


class DeclaredLengths(DeclaredLength):
    """A list of lengths in millimetres; the limits hold for each."""

    kind = "lengths"
    longest: ClassVar[int] = 50

    def take(self, written: object, units: str) -> tuple[float, ...]:
        items = listed(written, self.longest)
        return tuple(super(DeclaredLengths, self).take(item, units) for item in items)

    def allowed(self, units: str) -> str:
        return f"be a list of lengths, each between {span(self.low, self.high, units)}"

    def toml(self, units: str) -> str:
        return self.lengths_toml(self.default, units)

    def lengths_toml(self, lengths: tuple[float, ...], units: str) -> str:
        """Return a list of lengths as an order writes it."""
        return f"[{', '.join(self.length_toml(mm, units) for mm in lengths)}]"


class DeclaredRectangles(DeclaredLengths):
    """A list of [length, width] pairs in millimetres."""

    kind = "rectangles"

    def take(self, written: object, units: str) -> Any:
        pairs = [super(DeclaredRectangles, self).take(pair, units) for pair in listed(written, self.longest)]
        if any(len(pair) != 2 for pair in pairs):
            raise OrderError("each entry needs two lengths")
        return tuple(pairs)

    def allowed(self, units: str) -> str:
        return f"be a list of [length, width] pairs, each length between {span(self.low, self.high, units)}"

    def toml(self, units: str) -> str:
        return f"[{', '.join(self.lengths_toml(pair, units) for pair in self.default)}]"


@dataclass(frozen=True, kw_only=True)
class DeclaredNumber(Declared):
    """A plain number; `mark` is the unit it is in, such as "%" or "°"."""

    kind = "number"
    mark: str = ""

    def toml(self, units: str) -> str:
        return bare(self.default)

    def take(self, written: object, units: str) -> float:
        return self.within(number(written), f"{shown(written)}{self.mark}")

    def allowed(self, units: str) -> str:
        return f"lie between {bare(self.low)}{self.mark} and {bare(self.high)}{self.mark}"


class DeclaredAngle(DeclaredNumber):
    """An angle in degrees."""

    kind = "angle"


class DeclaredCount(Declared):
    """A whole number."""

    kind = "count"

    def take(self, written: object, units: str) -> int:
        return self.within(whole(written), shown(written))

    def allowed(self, units: str) -> str:
        return f"be a whole number between {self.low:g} and {self.high:g}"


class DeclaredChoice(Declared):
    """One of a few words, or of a few numbers where the default is one."""

    kind = "choice"

    def take(self, written: object, units: str) -> Any:
        if isinstance(self.default, int):
            return int(self._one_of(str(whole(written)), written))
        return self._one_of(text(written, 100), written)

    def _one_of(self, word: str, written: object) -> str:
        folded = {option.casefold(): option for option in self.options}
        if word.casefold() not in folded:
            raise OrderError(f"{shown(written)} is none of them")
        return folded[word.casefold()]

    def allowed(self, units: str) -> str:
        numeric = isinstance(self.default, int)
        return f"be one of {', '.join(option if numeric else shown(option) for option in self.options)}"


class DeclaredFlag(Declared):
    """True or false."""

    kind = "flag"

    def take(self, written: object, units: str) -> bool:
        if not isinstance(written, bool):
            raise OrderError(f"{shown(written)} is neither")
        return written

    def allowed(self, units: str) -> str:
        return "be true or false"


@dataclass(frozen=True, kw_only=True)
class DeclaredText(Declared):
    """One line of text."""

    kind = "text"
    longest: int = 100

    def take(self, written: object, units: str) -> str:
        return text(written, self.longest)

    def allowed(self, units: str) -> str:
        return f"be one line of text in quotes, at most {self.longest} characters"


@dataclass(frozen=True)
class WidthList:
    """Board widths, given one by one, in millimetres."""

    widths: tuple[float, ...]


@dataclass(frozen=True)
class WidthRange:
    """Board widths to be drawn at random between `low` and `high` (mm); `seed` makes the draw repeatable."""

    low: float
    high: float
    seed: int


class DeclaredWidths(DeclaredLengths):
    """Board widths: a list, or a range and a seed."""

    kind = "board widths"
    longest: ClassVar[int] = 200

    def take(self, written: object, units: str) -> Any:
        match written:
            case WidthList(widths):
                return WidthList(super().take(widths, "mm"))
            case WidthRange(low, high, seed):
                return self._range({"from": low, "to": high, "seed": seed}, "mm")
            case dict():
                return self._range(written, units)
            case _:
                return WidthList(super().take(written, units))

    def _range(self, table: dict[str, Any], units: str) -> WidthRange:
        for key in table:
            if key not in ("from", "to", "seed"):
                raise OrderError(f"{shown(key)}: {unknown(key, ['from', 'to', 'seed'], 'key')}")
        if not {"from", "to"} <= table.keys():
            raise OrderError("both from and to are needed")
        low, high = (DeclaredLength.take(self, table[key], units) for key in ("from", "to"))
        seed = whole(table.get("seed", 1))
        if low > high:
            raise OrderError("from is above to")
        if not 0 <= seed < 2**32:
            raise OrderError("seed must be a whole number from 0 to 4294967295")
        return WidthRange(low, high, seed)

    def allowed(self, units: str) -> str:
        return (
            "be a list of widths, or { from = …, to = …, seed = … }, each width between "
            f"{span(self.low, self.high, units)}"
        )

    def toml(self, units: str) -> str:
        match self.default:
            case WidthRange(low, high, seed):
                ends = f"from = {self.length_toml(low, units)}, to = {self.length_toml(high, units)}"
                return f"{{ {ends}, seed = {seed} }}"
            case _:
                return self.lengths_toml(self.default.widths, units)


def listed(written: object, longest: int) -> list[Any]:
    """Return a list with something in it. Raises OrderError for anything else."""
    if not isinstance(written, list | tuple):
        raise OrderError(f"{shown(written)} is not a list")
    if not 1 <= len(written) <= longest:
        raise OrderError(f"it has {len(written)} entries, where 1 to {longest} are wanted")
    return list(written)
