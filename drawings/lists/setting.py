"""What is set for one cut: cutter, depth and angles, then the fence or the stop."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from model.part import Part
from model.tolerance import SAME_SETTING as SAME_SETTING

#: Where no fence sets the place.
LAID_OUT = "laid out"


@dataclass(frozen=True)
class Setting:
    """What is set for one cut: cutter width, depth and angle, then the fence. mm and degrees; None: nothing to set.

    angle: of the work to the cutter, off square, or of a cutter's own slope; tilt: of the blade from upright. fence:
    from the nearer wall of a cut to what rides `against` it; place: the side and edge it is made on, which changes
    nothing of the setting.
    """

    cut: str
    width: float | None
    depth: float | None
    angle: float | None = None
    fence: float | None = None
    against: str = ""
    place: str = field(default="", compare=False)
    tilt: float | None = None


#: What is set for one kind of cut in a part.
Settings = Callable[[Any, Part], Iterator[Setting]]
