"""The chains of what is let in along its whole length: dados and grooves, tongues, splines, panels, rabbets, laps of
boards."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from model.checks.chains.chain import EASE, GOES_IN, HIDDEN, OPEN, Chain, Window, gains, loses
from model.checks.chains.fitted import Fitted
from model.cuts.edges import EdgeGroove, Rabbet, Tongue
from model.cuts.faces import Channel
from model.cuts.slanted_dado import SlantedDado
from model.cuts.through import Notch


def housed(f: Fitted) -> Iterator[Chain]:
    """A whole end or edge in a dado or groove; what is much thinner or thicker goes in by an edge worked for it, and
    has the joint's own clearance. A stopped dado is hidden by the notch of what goes in."""
    let_in: list[Channel | SlantedDado] = [*f.in_second(Channel), *f.in_second(SlantedDado)]
    thick = f.first.wood.thickness
    for n, cut in enumerate(let_in, 1):
        whole = abs(cut.width - thick) < thick / 4.0
        room = cut.width - thick if whole else f.joint.fit
        links = gains(f.of_second(f"width of {cut.name}", cut.width, "routed", cut, which=n))
        links += loses(f.maker.thickness(f.first.name))
        cure = f.maker.fit("plane to its groove, or cut the groove to it as planed")
        yield f.chain("", room, links, f.held(room), cure)
    for notch in f.in_first(Notch):
        x0, y0, x1, y1 = notch.outline.bounds
        links = gains(f.of_first("length of notch", max(x1 - x0, y1 - y0), "sawn", notch))
        links += loses(f.by_hand_in_second("stop of dado", "drilled"))
        cure = f.maker.scribe("mark the notch from where the dado stops")
        yield f.chain("front edges flush", 0.0, links, HIDDEN, cure)


def tongued(f: Fitted) -> Iterator[Chain]:
    """A tongue against the width and the depth of its groove, whichever part has which."""
    tongues, grooves = [*f.in_first(Tongue), *f.in_second(Tongue)], [*f.in_first(EdgeGroove), *f.in_second(EdgeGroove)]
    in_first = bool(f.in_first(Tongue))
    with_tongue, with_groove = (f.of_first, f.of_second) if in_first else (f.of_second, f.of_first)
    board = f.first if in_first else f.second
    for tongue in tongues:
        for n, groove in enumerate(_for(tongue, grooves), 1):
            deep = {"face": board.wood.thickness - tongue.rise - tongue.thickness, "back": tongue.rise}
            shoulders = [with_tongue("shoulder of tongue", d, "routed", which=side) for side, d in deep.items()]
            room = groove.width - tongue.thickness
            wide = with_groove("width of groove", groove.width, "routed", groove, which=n)
            links = (*gains(wide, *shoulders), *loses(f.maker.thickness(board.name)))
            cure = f.maker.fit("set the cutter for the tongue by the groove, on a scrap first")
            yield f.chain("", room, links, f.held(room), cure)
            links = gains(with_groove("depth of groove", groove.depth, "routed", groove, which=n))
            links += loses(with_tongue("length of tongue", tongue.length, "routed", tongue))
            yield f.chain("depth", groove.depth - tongue.length, links, GOES_IN, f.maker.fit("shorten the tongue"))


def _for(tongue: Tongue, grooves: Sequence[EdgeGroove]) -> list[EdgeGroove]:
    """The grooves that take a tongue at its full length; where it's cut back in places, some are shallower."""
    return [g for g in grooves if len(grooves) == 1 or g.depth >= tongue.length]


def splined(f: Fitted) -> Iterator[Chain]:
    """A loose spline against the grooves of both, and both boards' faces flush."""
    ours, theirs = f.in_first(EdgeGroove)[0], f.in_second(EdgeGroove)[0]
    spline = next(h for h in f.joint.hardware if h.kind == "spline")
    for groove, size_of in ((ours, f.of_first), (theirs, f.of_second)):
        room = groove.width - spline.thickness
        links = gains(size_of("width of groove", groove.width, "routed", groove))
        links += loses(f.maker.bought("spline thickness", spline.thickness))
        yield f.chain("", room, links, f.held(room), f.maker.fit("plane the splines to their grooves"))
    deep = gains(
        f.of_first("depth of groove", ours.depth, "routed", ours),
        f.of_second("depth of groove", theirs.depth, "routed", theirs),
    )
    links = deep + loses(f.maker.bought("spline width", spline.diameter))
    cure = f.maker.fit("rip the spline narrower")
    yield f.chain("depth", ours.depth + theirs.depth - spline.diameter, links, GOES_IN, cure)
    places = gains(f.of_first("height of groove", ours.rise, "routed", ours))
    places += loses(f.of_second("height of groove", theirs.rise, "routed", theirs))
    yield f.chain(
        "faces flush",
        0.0,
        places,
        HIDDEN,
        f.maker.scribe("cut with the face side to the fence, as the other part"),
        f.second,
    )


def panelled(f: Fitted) -> Iterator[Chain]:
    """A panel's edge in its groove, which may have been plowed with another part's; its depth is drawn with room for
    the wood to move, which no shop uses up by being inexact."""
    grooves: list[EdgeGroove | None] = [*f.in_second(EdgeGroove)]
    for groove in grooves or [None]:
        width = groove.width if groove else f.joint.fit
        links = gains(f.of_second("width of groove", width, "routed", groove))
        links += loses(f.maker.thickness(f.first.name), f.of_first("edge of panel", width - f.joint.fit, "routed"))
        cure = f.maker.fit("plane the panel's edge to its groove")
        yield f.chain("", f.joint.fit, links, f.held(f.joint.fit), cure)


def rabbeted(f: Fitted) -> Iterator[Chain]:
    """What lies in a rabbet comes flush with the side it is let into: by the rabbet's width, depth, or where it stops,
    whichever way its thickness lies."""
    own = f.second.at.own_direction(f.first.at.z)
    way = max(range(3), key=lambda n: abs(own[n]))
    for cut in f.in_second(Rabbet):
        let_in = (cut.start or cut.stop or 0.0, cut.width, cut.depth)[way]
        links = gains(f.of_second("rabbet", let_in, "routed", cut)) + loses(f.maker.thickness(f.first.name))
        yield f.chain("flush", 0.0, links, HIDDEN, f.maker.fit("plane it flush"))


def ship_lapped(f: Fitted) -> Iterator[Chain]:
    """Two lips: as much gap before their shoulders as is drawn for movement, and the faces flush."""
    pairs = zip(f.in_first(Rabbet), f.in_second(Rabbet), strict=True)
    for ours, theirs in pairs:
        one = f.of_first("width of rabbet", ours.width, "routed", ours)
        other = f.of_second("width of rabbet", theirs.width, "routed", theirs)
        for size in (one, other):
            cure = f.maker.fit("plane the lip back")
            yield f.chain("gap", f.joint.fit, gains(size), Window(-EASE, f.joint.fit + 2.0 * OPEN), cure)
        deep = gains(f.of_first("depth of rabbet", ours.depth, "routed", ours))
        deep += gains(f.of_second("depth of rabbet", theirs.depth, "routed", theirs))
        links = deep + loses(f.maker.thickness(f.second.name))
        yield f.chain(
            "faces flush", 0.0, links, HIDDEN, f.maker.fit("set the second rabbet by the first, on a scrap"), f.second
        )
