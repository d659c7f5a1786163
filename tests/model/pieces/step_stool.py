"""A step stool whose sides splay at the foot, as someone would write it who has read one design and the words."""

import math

from model import Angle, Length, Parameters, Piece, SawCut, angle, board, dado, nailed, place, size


class StepStool(Parameters):
    """A step up to the refuge's upper bunks: splayed sides sawn level, a shelf let into them, a tread nailed on."""

    width: Length = size("420 mm", "320 mm", "600 mm", "of the tread")
    depth: Length = size("240 mm", "200 mm", "320 mm", "of the tread")
    height: Length = size("300 mm", "220 mm", "400 mm", "floor to tread")
    shelf: Length = size("110 mm", "60 mm", "160 mm", "floor to the top of the shelf")
    splay: Angle = angle(8.0, 3.0, 12.0, "of the sides out from upright")
    housing: Length = size("7 mm", "5 mm", "9 mm", "depth of the dadoes down the middle")

    @property
    def under(self) -> float:
        """Of the tread, off the floor."""
        return self.height - self.thickness


OVERHANG, REVEAL = 25.0, 12.0


def make(p: StepStool) -> Piece:
    """Sides, shelf, tread."""
    piece = Piece("step stool", p)
    lean = math.radians(p.splay)
    s, c, t = math.sin(lean), math.cos(lean), p.thickness
    foot = OVERHANG - p.width / 2.0 - p.under * math.tan(lean)
    long, deep = (p.under + t * s) / c, p.depth - 2.0 * REVEAL
    left, right = piece.pair(
        "side",
        board(long, deep),
        place((foot, p.depth - REVEAL, 0.0), grain=(s, 0.0, c), face=(c, 0.0, -s)),
        SawCut((0.0, 0.0, 0.0), (-c, 0.0, s)),
        SawCut((p.under / c, 0.0, 0.0), (c, 0.0, -s)),
    )
    middle = p.shelf - t / 2.0
    inside = foot + (middle + t * s) * math.tan(lean) + t * c
    start = inside - p.housing
    shelf = piece.add("shelf", board(-2.0 * start, deep), place((start, REVEAL, p.shelf - t)))
    piece.join(dado(shelf, into=left, nails="6d"), dado(shelf, into=right, nails="6d"))
    tread = piece.add("tread", board(p.width, p.depth), place((-p.width / 2.0, 0.0, p.under)))
    piece.join(nailed(tread, to=left, penny="8d"), nailed(tread, to=right, penny="8d"))
    piece.step("Glue and nail the shelf into the sides", left, shelf, right)
    piece.step("Nail on the tread", tread)
    return piece
