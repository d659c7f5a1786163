"""One value as somebody wrote it in an order: read it, or say why it can't be read.

The readers raise `OrderError` with the trouble alone; whoever knows the key and the limits adds them.
"""

import difflib
import json
import math
import unicodedata
from collections.abc import Iterable

from model.errors import OrderError
from model.lengths import format_length, parse_length

#: Whole numbers in TOML have no end; nothing in an order needs more than this.
LARGEST = 1e12

#: What lengths are printed to, in millimetres; 0.1 mm where it isn't said.
_PRINTED_STEP = {"in": 25.4 / 16, "ft-in": 25.4 / 16, "in.dec": 0.0254}


def shown(value: object, most: int = 60) -> str:
    """Return a value as TOML would write it, in one line of at most `most` characters."""
    text = _toml(value)
    return text if len(text) <= most else text[: most - 1] + "…"


def _toml(value: object) -> str:
    match value:
        case str():
            return json.dumps(value, ensure_ascii=False)
        case bool():
            return "true" if value else "false"
        case int():
            return str(value) if abs(value) < LARGEST else f"{'-' if value < 0 else ''}a very large number"
        case float():
            return repr(value)
        case list() | tuple():
            return f"[{', '.join(_toml(item) for item in value[:20])}{', …' if len(value) > 20 else ''}]"
        case dict():
            return f"{{ {', '.join(f'{key} = {_toml(item)}' for key, item in value.items())} }}"
        case _:
            return str(value)


def bare(value: object) -> str:
    """Return a number as a person writes it: `19`, not `19.0`."""
    return shown(value).removesuffix(".0")


def number(written: object) -> float:
    """Return a finite number. Raises OrderError for text, true or false, NaN, infinity and the like."""
    if isinstance(written, bool) or not isinstance(written, int | float):
        raise OrderError(f"{shown(written)} is not a number")
    if not abs(written) <= LARGEST:
        raise OrderError(f"{shown(written)} is not a number to measure by")
    return float(written)


def whole(written: object) -> int:
    """Return a whole number. Raises OrderError for anything else, 3.0 included."""
    if isinstance(written, bool) or not isinstance(written, int):
        raise OrderError(f"{shown(written)} is not a whole number")
    return int(number(written))


def length(written: object, units: str) -> float:
    """Return millimetres from a length text, or from a bare number in the order's units.

    Raises OrderError where it is neither, and LengthError where the text can't be read.
    """
    return parse_length(written if isinstance(written, str) else number(written), units)


def text(written: object, longest: int) -> str:
    """Return one line of text without the spaces round it. Raises OrderError for anything else."""
    if not isinstance(written, str):
        raise OrderError(f"{shown(written)} is not text in quotes")
    if any(unicodedata.category(letter) in ("Cc", "Cn", "Cs", "Zl", "Zp") for letter in written):
        raise OrderError("it holds a line break or a control character")
    if len(written.strip()) > longest:
        raise OrderError(f"it is {len(written.strip())} characters long")
    return written.strip()


def spoken(mm: float, units: str) -> str:
    """Return a length as printed in `units`, its unit in letters: `1480 mm`, `10 ft 8 in`."""
    text = format_length(mm, units).replace("'", " ft").replace('"', " in")
    return f"{text} mm" if units == "mm" else text


def span(low: float, high: float, units: str) -> str:
    """Return "A and B" for two limits in millimetres, rounded inwards: what is printed is allowed."""
    step = _PRINTED_STEP.get(units, 0.1)
    inner_low = math.ceil(low / step - 1e-6) * step
    inner_high = math.floor(high / step + 1e-6) * step
    if inner_low > inner_high:
        inner_low, inner_high = low, high
    return f"{spoken(inner_low, units)} and {spoken(inner_high, units)}"


def unknown(word: str, known: Iterable[str], kind: str) -> str:
    """Return what to say of a word that is none of the `known`: the nearest of them, and all of them."""
    known = list(known)
    folded = {name.casefold(): name for name in reversed(known)}
    near = difflib.get_close_matches(word[:100].casefold(), folded, n=1, cutoff=0.5)
    guess = f"; did you mean {shown(folded[near[0]])}?" if near else "."
    return f"there is no such {kind}{guess} Known: {', '.join(known)}"
