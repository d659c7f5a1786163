"""The chains of ends that go into another part: tenons, loose tongues, bridles, sliding dovetails, tabs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from model.checks.chains.chain import CLOSED, EASE, FLUSH, GOES_IN, HIDDEN, Chain, Window, gains, loses
from model.checks.chains.fitted import Fitted
from model.cuts.cut import Cut
from model.cuts.faces import Bore, Channel
from model.cuts.mortises import Mortise, OpenMortise
from model.cuts.sliding_dovetails import DovetailSocket, DovetailTongue
from model.cuts.slots import SlottedHole
from model.cuts.tenons import Tenon, TenonedEnd
from model.cuts.through import Opening
from model.layout.outline import Edge, Point
from model.placement import dot
from model.tolerance import SAME_POINT

MORTISE_FIRST = "pare the tenons to their mortises, cut first"


def tenoned(f: Fitted) -> Iterator[Chain]:
    """Each tenon in its mortise by thickness, width and length; several by their distance; a peg by its draw."""
    end, mortises = f.in_first(TenonedEnd)[0], f.in_second(Mortise)
    standing = [*end.tenons, *([end.haunch] if end.haunch else [])]
    for n, (tenon, mortise) in enumerate(zip(standing, mortises, strict=True), 1):
        yield _cheeks(f, n, tenon, mortise)
        yield _edges(f, n, tenon, mortise)
        if not mortise.through:
            yield from _length(f, n, end, tenon, mortise)
    for n, (a, b) in enumerate(pairwise(mortises[: len(end.tenons)]), 1):
        yield _pitch(f, n, a, b)
    yield from _draw(f)


def _cheeks(f: Fitted, n: int, tenon: Tenon, mortise: Mortise) -> Chain:
    room = mortise.width - tenon.thickness
    links = gains(f.of_second("width of mortise", mortise.width, "routed", mortise, which=n))
    deep = {"face": f.first.wood.thickness - tenon.rise - tenon.thickness, "back": tenon.rise}
    links += gains(*(f.of_first("cheek of tenon", d, "routed", which=f"{n} {side}") for side, d in deep.items()))
    links += loses(f.maker.thickness(f.first.name))
    return f.chain("", room, links, f.held(room), f.maker.fit(MORTISE_FIRST))


def _edges(f: Fitted, n: int, tenon: Tenon, mortise: Mortise) -> Chain:
    """End grain at both ends of the mortise: no glue holds there, so it may be loose."""
    links = gains(f.by_hand_in_second("length of mortise", "routed", mortise, which=n))
    links += loses(f.of_first("width of tenon", tenon.width, "routed", which=n))
    room = mortise.length - tenon.width
    return f.chain("", room, links, Window(-EASE, max(room, 0.0) + FLUSH), f.maker.fit(MORTISE_FIRST))


def _length(f: Fitted, n: int, end: TenonedEnd, tenon: Tenon, mortise: Mortise) -> Iterator[Chain]:
    """A tenon whose shoulder is square must not stand on the bottom of its mortise."""
    along = end.shoulder.normal[0]
    if abs(along) < 1.0 - 1e-9 or not mortise.square:
        return
    x0, _, x1, _ = f.first.wood.outline.bounds
    tip = tenon.tip.offset if tenon.tip else (x1 if along > 0.0 else -x0)
    long = tip - end.shoulder.offset
    links = gains(f.by_hand_in_second("depth of mortise", "routed", mortise, which=n))
    links += loses(f.of_first("length of tenon", long, "sawn", which=n))
    yield f.chain("depth", mortise.depth - long, links, GOES_IN, f.maker.fit("saw the tenon's tip shorter"))


def _pitch(f: Fitted, n: int, a: Mortise, b: Mortise) -> Chain:
    """Two tenons of one end as far apart as their mortises."""
    pair = ((n, a), (n + 1, b))
    links = gains(*(f.by_hand_in_second("place of mortise", "drilled", m, which=k) for k, m in pair))
    links += loses(f.of_first("distance of tenons", 0.0, "routed", which=n))
    return f.chain("distance of tenons", 0.0, links, CLOSED, f.maker.scribe("mark the tenons from their mortises"))


def _draw(f: Fitted) -> Iterator[Chain]:
    """A peg draws the joint up: its hole in the tenon lies nearer the shoulder, by no more than twice what is drawn."""
    for n, (ours, theirs) in enumerate(zip(f.in_first(Bore), f.in_second(Bore), strict=False), 1):
        there, here = f.second.at.point(theirs.at), f.first.at.point(ours.at)
        room = dot(f.joint.closes, (there[0] - here[0], there[1] - here[1], there[2] - here[2]))
        links = gains(f.by_hand_in_second("peg hole", "drilled", theirs, which=n))
        links += loses(f.by_hand_in_first("peg hole", "drilled", ours, which=n))
        cure = f.maker.scribe("mark the hole in the tenon through the hole in the mortise")
        yield f.chain("draw", abs(room), links, Window(0.0, 2.0 * abs(room)), cure)


def loose_tongued(f: Fitted) -> Iterator[Chain]:
    """A loose tongue in the mortises of both, by thickness and length."""
    tongues = [h for h in f.joint.hardware if h.kind == "loose tongue"]
    pairs = zip(f.in_first(Mortise), f.in_second(Mortise), tongues, strict=False)
    for n, (ours, theirs, tongue) in enumerate(pairs, 1):
        for mortise, size_of in ((ours, f.of_first), (theirs, f.of_second)):
            room = mortise.width - tongue.thickness
            links = gains(size_of("width of mortise", mortise.width, "routed", mortise, which=n))
            links += loses(f.maker.bought("loose tongue thickness", tongue.thickness))
            yield f.chain("", room, links, f.held(room), f.maker.fit("plane the tongues to their mortises"))
        links = gains(f.of_first("depth of mortise", ours.depth, "routed", ours, which=n))
        links += gains(f.of_second("depth of mortise", theirs.depth, "routed", theirs, which=n))
        links += loses(f.maker.bought("loose tongue length", tongue.length))
        room = ours.depth + theirs.depth - tongue.length
        yield f.chain("depth", room, links, GOES_IN, f.maker.fit("shorten the tongues"))
    links = gains(f.by_hand_in_first("place of mortise", "drilled"))
    links += loses(f.by_hand_in_second("place of mortise", "drilled"))
    yield f.chain("edges flush", 0.0, links, HIDDEN, f.maker.scribe("mark its mortises from the other part"), f.second)


def bridled(f: Fitted) -> Iterator[Chain]:
    """An open mortise astride what is left of the other part: thinned to a tenon at a corner, by two housings in a
    tee, which are also as wide as the end."""
    for slot in f.in_first(OpenMortise):
        wide = f.of_first("width of open mortise", slot.width, "routed", slot)
        cure = f.maker.fit("pare to the slot, which is sawn first")
        ends, housings = f.in_second(TenonedEnd), f.in_second(Channel)
        thick = ends[0].tenons[0].thickness if ends else f.second.wood.thickness - sum(h.depth for h in housings)
        room = slot.width - thick
        bare = (f.second.wood.thickness - thick) / 2.0
        walls = [f.of_second("side of bridle", bare, "routed", which=side) for side in ("face", "back")]
        links = gains(wide, *walls) + loses(f.maker.thickness(f.second.name))
        yield f.chain("", room, links, f.held(room), cure, f.second)
        for n, housing in enumerate(housings, 1):
            links = gains(f.of_second("width of housing", housing.width, "routed", housing, which=n))
            links += loses(f.maker.width(f.first.name))
            room = housing.width - f.first.wood.stock.width
            cure = f.maker.fit("saw the second shoulder by the other part laid on it")
            yield f.chain("shoulders", max(room, 0.0), links, f.held(room), cure, f.second)


def slid_dovetail(f: Fitted) -> Iterator[Chain]:
    """A dovetailed tongue in its socket by width; by depth both close at once."""
    tongue, socket = f.in_first(DovetailTongue)[0], f.in_second(DovetailSocket)[0]
    neck = tongue.neck(f.first.wood.thickness)
    flanks = [f.of_first("flank of tongue", tongue.inset, "routed", which=side) for side in ("face", "back")]
    links = gains(f.of_second("width of socket", socket.width, "routed", socket), *flanks)
    links += loses(f.maker.thickness(f.first.name))
    # a stopped or tapered tongue is narrower where its socket opens
    room = f.joint.fit if socket.taper or tongue.taper else socket.width - neck
    yield f.chain("", room, links, f.held(room), f.maker.fit("cut the socket first, and plane the tongue to it"))
    links = gains(f.of_second("depth of socket", socket.depth, "routed", socket))
    links += loses(f.of_first("length of tongue", tongue.length, "routed", tongue))
    cure = f.maker.fit("plane the tongue's tip shorter")
    yield f.chain("depth", socket.depth - tongue.length, links, HIDDEN, cure)


def tabbed(f: Fitted) -> Iterator[Chain]:
    """Each tab in its opening by the sheet's thickness and by its width; the outer ones by their distance."""
    openings, run = f.in_second(Opening), f.second.at.own_direction(f.first.at.z)
    thick = f.first.wood.thickness
    for n, opening in enumerate(openings, 1):
        room = _extent(opening, (run[0], run[1])) - thick
        links = gains(f.of_second("width of opening", room + thick, "sawn", opening, which=n))
        links += loses(f.maker.thickness(f.first.name))
        yield f.chain("thickness", room, links, GOES_IN, f.maker.fit("file the openings to the sheet"), f.second)
        links = gains(f.of_second("length of opening", 0.0, "sawn", opening, which=n))
        links += loses(f.of_first("width of tab", 0.0, "sawn", f.joint.first_cuts[0], which=n))
        yield f.chain("tab", f.joint.fit, links, GOES_IN, f.maker.fit("file the tabs to their openings"))
    yield from _tab_pitch(f, openings)


def _extent(opening: Opening, way: Point) -> float:
    """Between its walls that stand square to a direction, mm; reliefs in its corners may reach past them."""
    walls = [way[0] * e.start[0] + way[1] * e.start[1] for e in opening.outline.edges if _square(e, way)]
    return max(walls) - min(walls)


def _square(edge: Edge, way: Point) -> bool:
    (x0, y0), (x1, y1) = edge.start, edge.end
    return edge.straight and abs(way[0] * (x1 - x0) + way[1] * (y1 - y0)) < SAME_POINT


def _tab_pitch(f: Fitted, openings: Sequence[Cut]) -> Iterator[Chain]:
    if len(openings) > 1:
        links = gains(f.of_second("distance of openings", 0.0, "sawn", openings[0]))
        links += loses(f.of_first("distance of tabs", 0.0, "sawn", f.joint.first_cuts[0]))
        play = f.joint.fit
        cure = f.maker.fit("mark the openings from the tabs, and file them to go")
        yield f.chain("distance of tabs", 0.0, links, Window(-play - EASE, play + EASE), cure, f.second)


def pegged(f: Fitted) -> Iterator[Chain]:
    """Pegs of a breadboard end: each hole in line with its slot."""
    ours, theirs = f.in_first(SlottedHole), f.in_second(SlottedHole)
    for n, (hole, slot) in enumerate(zip(ours, theirs, strict=False), 1):
        links = gains(f.by_hand_in_first("hole", "drilled", hole, which=n))
        links += loses(f.by_hand_in_second("hole", "drilled", slot, which=n))
        cure = f.maker.scribe("mark its holes through those of the batten, bored first")
        yield f.chain("pegs", 0.0, links, CLOSED, cure, f.second)
