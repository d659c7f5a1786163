"""setups.csv: the cutter and fence settings, those that share a cutter setting under one number."""

from __future__ import annotations

from drawings.lists.columns import Column, Speech, decimal, exact, lengths
from drawings.lists.distinct import in_short
from drawings.lists.setups import Setup


def setup_columns(speech: Speech) -> list[Column]:
    """The columns of the set-up list; its lines are `Setup`s."""
    return [
        Column("set-up", lambda line: str(line.number)),
        Column("cut", lambda line: line.setting.called(speech.units, speech.denominator)),
        lengths("width", _width, speech),
        lengths("depth", _depth, speech),
        Column("angle (degrees)", lambda line: decimal(line.setting.angle, 3)),
        Column("blade tilt (degrees)", lambda line: decimal(line.setting.tilt, 3)),
        lengths("fence", _fence, speech),
        Column("fence measured from", lambda line: line.setting.against),
        Column("cuts", lambda line: str(line.cuts)),
        Column("where: parts", lambda line: "; ".join(f"{place}: {in_short(names)}" for place, names in line.served)),
        exact("width", _width),
        exact("depth", _depth),
        exact("fence", _fence),
    ]


def _width(line: Setup) -> float | None:
    return line.setting.width


def _depth(line: Setup) -> float | None:
    return line.setting.depth


def _fence(line: Setup) -> float | None:
    return line.setting.fence
