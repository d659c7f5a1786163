"""Which short name stands for a value, and for nothing else? Digests of values, of solids, and of the checks' own code.

Two values with one digest are the same to the last bit: floats are written with all their digits, and a value of a kind
not known here has no digest, so that nothing is left out unseen; nor has one of a class from outside `model`, such as a
maker's own script, whose code this can't vouch for.
"""

from __future__ import annotations

import hashlib
import platform
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any

from model.parameters import Declaring

#: The package whose code is part of every digest.
OWN = "model"

#: Whose versions an answer follows from, besides our own code.
WORKED_OUT_WITH = ("cadquery-ocp", "numpy", "shapely")


def digest(*values: Any) -> str:
    """A name for plain values, in hexadecimal: numbers, words, tuples, lists, dictionaries, and our own dataclasses and
    declared sections of an order.

    Raises TypeError for a value of another kind.
    """
    told = hashlib.sha256(foundation().encode())
    for value in values:
        for word in _written(value):
            told.update(word.encode())
            told.update(b"\0")
    return told.hexdigest()


@cache
def foundation() -> str:
    """The digest of what every answer rests on: the code of `model`, the kernel's version and its like."""
    told = hashlib.sha256()
    for word in (platform.machine(), platform.python_version(), *(f"{n} {version(n)}" for n in WORKED_OUT_WITH)):
        told.update(word.encode() + b"\0")
    folder = Path(__file__).parents[2]
    for path in sorted(folder.rglob("*.py")) + sorted(folder.rglob("*.csv")):
        told.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return told.hexdigest()


def _written(value: Any) -> Iterator[str]:
    kind = type(value)
    yield f"{kind.__module__}.{kind.__qualname__}"
    if value is None or kind in (str, int, bool, float):
        yield repr(value)
    elif kind in (tuple, list):
        yield str(len(value))
        for item in value:
            yield from _written(item)
    elif kind is dict:
        yield from _written(list(value.items()))
    elif kind.__module__.partition(".")[0] != OWN:
        raise TypeError(f"a {kind.__qualname__} has no digest")
    elif isinstance(value, Enum):
        yield value.name
    elif isinstance(value, Declaring):
        yield from _written(vars(value))
    elif is_dataclass(value):
        for field in fields(value):
            yield field.name
            yield from _written(getattr(value, field.name))
    else:
        raise TypeError(f"a {kind.__qualname__} has no digest")
