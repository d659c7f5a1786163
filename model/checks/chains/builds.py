"""How many builds go together? Every chain built many times over, with the same errors wherever it shares a size.

An error is told by its name alone, so that neither the order of parts nor what else is asked changes a build; the same
name has the same errors in every run. They are read off two tables of normal errors, each from a place that the name
tells, and added: drawing them anew for every name takes ten times as long.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import cache
from hashlib import blake2b

import numpy as np
from numpy.typing import NDArray

from model.checks.chains.chain import Chain

Numbers = NDArray[np.float32]
Together = NDArray[np.bool_]

BUILDS, SEED = 10_000, 4

#: Errors in a table: so many that no two names begin at the same places in both.
_TABLE = 2**19


def rooms(chain: Chain) -> Numbers:
    """A chain's room in every build, mm (BUILDS,)."""
    total = np.full(BUILDS, chain.room, dtype=np.float32)
    for brought_in, whose in ((chain.shared, "setting: "), (chain.own, "")):
        for name, spread in brought_in.items():
            if spread != 0.0:
                total += np.float32(spread) * _errors(whose + name)
    return total


def together(chain: Chain) -> Together:
    """In which builds a chain goes together (BUILDS,)."""
    if chain.certain:
        return np.ones(BUILDS, dtype=bool)
    found = rooms(chain)
    return (found >= chain.window.least) & (found <= chain.window.most)


def every(builds: Iterable[Together]) -> Together:
    """The builds that are in all of them (BUILDS,)."""
    found = np.ones(BUILDS, dtype=bool)
    for some in builds:
        found &= some
    return found


def share(builds: Together) -> float:
    """Builds in 100."""
    return round(100.0 * float(builds.mean()), 2)


def _errors(name: str) -> Numbers:
    """One error in every build, in standard deviations (BUILDS,)."""
    told = int.from_bytes(blake2b(name.encode(), digest_size=16).digest(), "big")
    first, second = told % (_TABLE - BUILDS), (told >> 64) % (_TABLE - BUILDS)
    one, other = _tables()
    return one[first : first + BUILDS] + other[second : second + BUILDS]


@cache
def _tables() -> Numbers:
    """Two tables of errors whose sums have a standard deviation of one (2, _TABLE)."""
    drawn = np.random.default_rng(SEED).standard_normal((2, _TABLE), dtype=np.float32)
    return drawn / np.float32(math.sqrt(2.0))
