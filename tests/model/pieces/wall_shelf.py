"""A small wall shelf with a drawer, as someone would write it who has read one design and the list of words."""

from model import (
    DesignError,
    DrawerOpening,
    Ease,
    Length,
    Parameters,
    Piece,
    Profile,
    board,
    choice,
    dado,
    drawer,
    flag,
    knob,
    mortise_and_tenon,
    place,
    rests,
    rounded,
    size,
)


class WallShelf(Parameters):
    """A shelf for lamps and matches by the refuge's door, with one drawer under it."""

    width: Length = size("420 mm", "300 mm", "700 mm", "outside to outside")
    height: Length = size("300 mm", "240 mm", "450 mm", "of the sides")
    depth: Length = size("190 mm", "150 mm", "260 mm", "front to back")
    drawer_height: Length = size("90 mm", "70 mm", "120 mm", "of the drawer's opening")
    housing: Length = size("6 mm", "4 mm", "8 mm", "depth of the dadoes")
    drawer_back: str = choice("dado", ("dado", "dovetail"), "how the drawer's back is let in")
    eased: bool = flag(True, "front edges eased")

    @property
    def inside(self) -> float:
        return self.width - 2 * self.thickness

    @property
    def ceiling(self) -> float:
        """Of the drawer's opening: the underside of the shelf."""
        return self.thickness + self.drawer_height

    def check(self) -> None:
        if self.height < self.ceiling + self.thickness + 80:
            raise DesignError(
                f"[size] height: {self.show(self.height)} leaves no room above the shelf; make the sides at least "
                f"{self.show(self.ceiling + self.thickness + 80)}"
            )


def make(p: WallShelf) -> Piece:
    piece = Piece("wall shelf", p)
    # upright, face side in, so that the far edge is the left one's front; its upper corner is rounded
    corners = ((0, 0), (p.height, 0), (p.height, p.depth), (0, p.depth))
    outline = rounded(corners, (0, 0, 40, 0), ("near", "right", "far", "left"))
    left, right = piece.pair(
        "side",
        board(p.height, p.depth),
        place((0, p.depth, 0), grain="up", face="right"),
        Profile(outline),
        middle=p.width / 2,
    )
    if p.eased:
        left.cut(Ease(edge="far", radius=2.0))
        right.cut(Ease(edge="near", radius=2.0))

    long = p.inside + 2 * p.housing
    shelves = []
    for name, z in (("bottom", 0.0), ("shelf", p.ceiling)):
        level = piece.add(name, board(long, p.depth), place((p.thickness - p.housing, 0, z)))
        piece.join(dado(level, into=left), dado(level, into=right))
        shelves.append(level)

    # the rail it hangs by
    rail = piece.add(
        "hanging rail",
        board(p.inside + p.thickness, 60),
        place((p.thickness / 2, p.depth, p.height - 80), grain="right", face="front"),
    )
    piece.join(*(mortise_and_tenon(rail, into=side) for side in (left, right)))

    low, high = (p.thickness, 0.0, p.thickness), (p.width - p.thickness, p.depth, p.ceiling)
    box = drawer(piece, "drawer", DrawerOpening(low, high), back=p.drawer_back)
    for side in (box.left, box.right):
        piece.join(rests(side, on=shelves[0]))
    piece.fit(knob((p.width / 2, 0.0, (low[2] + high[2]) / 2), (0.0, -1.0, 0.0), box.front.name, 22.0))

    piece.step("Glue bottom, shelf and rail into the left side, then bring on the right", left, *shelves, rail, right)
    piece.step("Put the drawer together and slide it in from the front", *box.parts)
    return piece
