"""What is set for one cut: cutter, depth and angles, then the fence or the stop."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from drawings.lists.rounding import told
from drawings.paper.measured import Measured
from drawings.paper.saying import Saying, Says, number, say
from model.part import Part
from model.tolerance import SAME_SETTING as SAME_SETTING

#: Where no fence sets the place.
LAID_OUT = "laid out"


@dataclass(frozen=True)
class Setting:
    """What is set for one cut: cutter width, depth and angle, then the fence. mm and degrees; None: nothing to set.

    angle: of the work to the cutter, off square, or of a cutter's own slope; tilt: of the blade from upright. fence:
    from the nearer wall of a cut to what rides `against` it; place: the side and edge it is made on, which changes
    nothing of the setting. spacing: of a row of holes, from middle to middle.
    """

    cut: str
    width: float | None
    depth: float | None
    angle: float | None = None
    fence: float | None = None
    against: str = ""
    place: str = field(default="", compare=False)
    tilt: float | None = None
    spacing: float | None = None

    def called(self, units: str, denominator: int, spaced: tuple[Measured, ...] = ()) -> Saying:
        """The cut's name, of a row with its spacing as the order prints lengths; spaced: what that measures."""
        name = number(self.cut, Says("biscuit" if self.spacing is None else "row"))
        if self.spacing is None:
            return name
        unit = " mm" if units == "mm" else ""
        return say("{}, {}{} apart", name, number(told(self.spacing, units, denominator), spaced), unit)


#: What is set for one kind of cut in a part.
Settings = Callable[[Any, Part], Iterator[Setting]]
