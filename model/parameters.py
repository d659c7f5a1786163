"""The words in which a piece script declares its parameters, and their reading.

    class Bookcase(Parameters):
        \"\"\"Two sides, dadoed shelves, a boarded back.\"\"\"
        height: Length = size("1200 mm", "300 mm", "2400 mm", "floor to top")
        shelves: int = count(3, 1, 12, "shelves between bottom and top")

`Bookcase(height=1500)` is checked as it is made, numbers being millimetres. `Bookcase.read` takes the [size]
table of an order, bare numbers being in the order's units.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any, Self, TypeAlias

from pydantic import BaseModel, ConfigDict, Field, ValidationError, ValidationInfo, field_validator, model_validator

from model.declared import (
    Declared,
    DeclaredAngle,
    DeclaredChoice,
    DeclaredCount,
    DeclaredFlag,
    DeclaredLength,
    DeclaredNumber,
    DeclaredWidths,
    WidthList,
    WidthRange,
)
from model.errors import DesignError, OrderError
from model.written import length, shown, spoken, unknown

#: A length in millimetres, declared with `size`.
Length: TypeAlias = float
#: An angle in degrees, declared with `angle`.
Angle: TypeAlias = float
#: Board widths, declared with `board_widths`.
BoardWidths: TypeAlias = WidthList | WidthRange


def size(default: str | float, low: str | float, high: str | float, what: str) -> Any:
    """Declare a length. Texts carry their unit; bare numbers are millimetres; the limits are included."""
    return _sound(
        DeclaredLength(what=what, default=length(default, "mm"), low=length(low, "mm"), high=length(high, "mm"))
    )


def count(default: int, low: int, high: int, what: str) -> Any:
    """Declare a whole number; the limits are included."""
    return _sound(DeclaredCount(what=what, default=default, low=low, high=high))


def angle(default: float, low: float, high: float, what: str) -> Any:
    """Declare an angle in degrees; the limits are included."""
    return _sound(DeclaredAngle(what=what, default=default, low=low, high=high, mark="°"))


def ratio(default: float, low: float, high: float, what: str) -> Any:
    """Declare a plain number; the limits are included."""
    return _sound(DeclaredNumber(what=what, default=default, low=low, high=high))


def choice(default: str | int, options: Sequence[str], what: str) -> Any:
    """Declare one word out of `options`; one whole number, where the default is a number."""
    return _sound(DeclaredChoice(what=what, default=default, options=tuple(options)))


def flag(default: bool, what: str) -> Any:
    """Declare a yes or no."""
    return _sound(DeclaredFlag(what=what, default=default))


def board_widths(default: BoardWidths, low: str | float, high: str | float, what: str) -> Any:
    """Declare board widths, given one by one or as a range and a seed; the limits hold for each width."""
    return _sound(DeclaredWidths(what=what, default=default, low=length(low, "mm"), high=length(high, "mm")))


def _sound(declared: Declared) -> Declared:
    """Return the declaration, its own default read and so known to be allowed."""
    return replace(declared, default=declared.read(declared.default, "mm"))


class Declaring(BaseModel):
    """A frozen set of declared values, each checked against its declaration however it is made.

    Made from Python, numbers are millimetres. Raises OrderError, or DesignError from `check`.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", validate_default=True)

    def __init__(self, **values: Any) -> None:
        try:
            super().__init__(**values)
        except ValidationError as error:
            raise _plain(error, type(self)) from None

    def check(self) -> None:
        """Refuse values that are each allowed but can't stand together; a subclass says how."""

    @classmethod
    def declared(cls) -> dict[str, Declared]:
        """Return what is declared, by key, in the order declared."""
        defaults = {name: field.default for name, field in cls.model_fields.items()}
        return {name: said.named(name) for name, said in defaults.items() if isinstance(said, Declared)}

    @classmethod
    def read(
        cls, table: Mapping[str, Any], units: str, where: str = "", given: Mapping[str, Any] | None = None
    ) -> Self:
        """Return a table as written, bare lengths in `units`; what it leaves out may be `given` (mm).

        Raises OrderError with a line for each wrong key, `where` before it; DesignError from `check`.
        """
        declared, values, troubles = cls.declared(), {}, []
        for key, written in table.items():
            try:
                if key not in declared:
                    raise OrderError(unknown(key, declared, "key"))
                values[key] = declared[key].read(written, units)
            except OrderError as trouble:
                troubles.append(f"{where}{key} = {shown(written)}: {trouble}")
        if troubles:
            raise OrderError("\n".join(troubles))
        return cls(**{**(given or {}), **values})

    def but(self, **changes: Any) -> Self:
        """Return these values with some changed, checked again; numbers are millimetres."""
        return type(self)(**{**dict(self), **changes})

    @field_validator("*", mode="before")
    @classmethod
    def _as_declared(cls, written: Any, info: ValidationInfo) -> Any:
        declared = cls.model_fields[info.field_name or ""].default
        if not isinstance(declared, Declared):
            return written
        return declared.default if written is declared else declared.read(written, "mm")

    @model_validator(mode="after")
    def _together(self) -> Self:
        self.check()
        return self


class Parameters(Declaring):
    """The parameters of one piece. A piece script derives from it and declares them with the words above.

    The three undeclared values come from other sections than [size], so that every piece has them.
    """

    #: Millimetres, as measured: [wood] of the order.
    thickness: float = Field(19.0, gt=0, allow_inf_nan=False)
    #: Trade name: [wood] of the order.
    species: str = "eastern white pine"
    #: The units lengths are printed in.
    units: str = "mm"

    def show(self, mm: float) -> str:
        """Return a length in the order's units, with the unit, for messages."""
        return spoken(mm, self.units)


def describe(cls: type[Declaring]) -> list[Declared]:
    """Return the declared parameters in their order, each with name, kind, default, limits and meaning."""
    return list(cls.declared().values())


def _plain(error: ValidationError, cls: type[Declaring]) -> OrderError | DesignError:
    """Return pydantic's findings as one error of ours."""
    troubles = []
    for found in error.errors(include_url=False):
        cause = found.get("ctx", {}).get("error")
        if not found["loc"] and isinstance(cause, OrderError | DesignError):
            return cause
        trouble = unknown(str(found["loc"][0]), cls.model_fields, "key") if cause is None else str(cause)
        if found["type"] not in ("value_error", "extra_forbidden"):
            trouble = found["msg"]
        troubles.append(f"{'.'.join(map(str, found['loc']))} = {shown(found['input'])}: {trouble}")
    return OrderError("\n".join(troubles))
