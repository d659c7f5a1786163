"""Where do two parts stand that should have met? Told to whoever placed one of them wrongly."""

from __future__ import annotations

from itertools import product

from model.joints.joint import Stood


def whereabouts(first: Stood, second: Stood) -> str:
    """The room that each takes up in the piece, as words to end a refusal with."""
    return f"check where they stand: {_room(first)}; {_room(second)}"


def _room(stood: Stood) -> str:
    x0, y0, x1, y1 = stood.wood.outline.bounds
    corners = [stood.at.point(own) for own in product((x0, x1), (y0, y1), (0.0, stood.wood.thickness))]
    along = zip("xyz", map(min, *corners), map(max, *corners), strict=True)
    return f"{stood.name} has {', '.join(f'{axis} {low:.0f} to {high:.0f} mm' for axis, low, high in along)}"
