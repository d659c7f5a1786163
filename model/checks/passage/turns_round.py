"""Does something flat on the floor turn round a square corner? The ladder round a corner, and its thick brother.

No CAD kernel here.
"""

from __future__ import annotations

import math

import numpy as np

from model.checks.passage.flat_hull import SLACK

#: Widths of the passage before and after, mm.
Corner = tuple[float, float]


def rounds(length: float, thickness: float, corner: Corner) -> bool:
    """Whether a rectangle goes round a square corner between passages of two widths, mm: turned, or sideways."""
    narrow, wide = min(corner), max(corner)
    sideways = thickness <= narrow + SLACK and length <= wide + SLACK
    return sideways or length <= longest_round(thickness, corner) + SLACK


def longest_round(thickness: float, corner: Corner) -> float:
    """The longest rectangle of a thickness that turns a square corner of passages a and b wide, mm, 0 where it is too
    thick: the least over the turn t of (a cos t + b sin t - thickness) / (sin t cos t), the ladder round a corner, its
    far side sliding along both outer walls; for no thickness (a^(2/3) + b^(2/3))^(3/2)."""
    a, b = corner
    if thickness >= min(a, b):
        return 0.0
    low, high = 1e-4, math.pi / 2.0 - 1e-4
    for _ in range(4):
        t = np.linspace(low, high, 2001)
        reach = (a * np.cos(t) + b * np.sin(t) - thickness) / (np.sin(t) * np.cos(t))
        at, step = t[int(reach.argmin())], t[1] - t[0]
        low, high = max(at - step, 1e-6), min(at + step, math.pi / 2.0 - 1e-6)
    return max(float(reach.min()), 0.0)
