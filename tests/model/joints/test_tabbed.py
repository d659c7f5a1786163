"""Tabs through openings, square and relieved for a cutter, the kernel as witness."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from model.cuts.through import Opening
from model.errors import DesignError
from model.joints.tabbed import BESIDE, tabbed
from model.piece import Placed
from model.placement import Placement, place
from model.stock import sheet
from tests.model.joints.sizes import mm
from tests.model.joints.witness import (
    assert_mirror_images,
    assert_sound,
    contact_area,
    home,
    stood,
    taken_away,
)

few = settings(max_examples=8, deadline=None)


def under_a_seat(thick: float, seat_thick: float, turn: float = 0.0) -> tuple[Placed, Placed]:
    """A web on edge under a seat, its upper edge flush with the seat's face, turned in plan."""
    web = place((-150, thick / 2, 0), "right", "front")
    about = Placement().swung(turn, (0, 0))
    a = stood("web", sheet(300, 200 + seat_thick, thick), about @ web)
    return a, stood("seat", sheet(400, 400, seat_thick), place((-200, -200, 200)))


@few
@given(mm(9, 25), mm(9, 25), mm(20, 60), mm(0, 0.5), mm(-80, 80))
def test_two_tabs_through_a_seat(thick, seat_thick, width, fit, turn) -> None:  # type: ignore[no-untyped-def]
    web, seat = under_a_seat(thick, seat_thick, turn)
    joint = tabbed(web, into=seat, at=(-80, 80), width=width, fit=fit)
    home(web, seat, joint)

    assert joint.closes == pytest.approx((0, 0, 1))
    assert joint.glue_area == pytest.approx(2 * 2 * width * seat_thick)
    assert_sound(web, seat, joint, reach=60)
    assert taken_away(web) == pytest.approx((300 - 2 * width) * seat_thick * thick, rel=1e-6)
    assert taken_away(seat) == pytest.approx(2 * (width + fit) * (thick + fit) * seat_thick, rel=1e-6)
    if fit > 0.01:
        assert contact_area(web, seat) == pytest.approx(thick * (300 - 2 * width - 2 * fit), rel=5e-3)


@few
@given(mm(12, 25), mm(3, 8), mm(0.1, 0.4))
def test_relieved_for_a_cutter(thick, cutter, fit) -> None:  # type: ignore[no-untyped-def]
    web, seat = under_a_seat(thick, thick)
    joint = tabbed(web, into=seat, at=(-80, 80), width=45, fit=fit, cutter=cutter)
    home(web, seat, joint)

    assert_sound(web, seat, joint, reach=60)
    arcs = [e for cut in (*joint.first_cuts, *joint.second_cuts) for e in cut.outline.edges if not e.straight]  # type: ignore[attr-defined]
    assert len(arcs) == 4 + 2 * 4  # at the roots of the tabs, and in the corners of the openings
    assert all(e.radius == pytest.approx(cutter / 2, abs=0.03) for e in arcs)
    for part in (web, seat):
        assert all(f.through and f.side == "face" for _, f in part.wood.footprints())


def test_tabs_mirror_and_keep_clear_of_other_openings() -> None:
    web, seat = under_a_seat(18, 18)
    seat.cut(Opening(tabbed(web, into=seat, at=(0,), width=60).second_cuts[0].outline))  # type: ignore[attr-defined]
    joint = tabbed(web, into=seat, at=(-90, 110), width=40, cutter=6.35)
    home(web, seat, joint)

    assert_sound(web, seat, joint, reach=30)
    image = stood("image", web.wood.stock, web.at)
    image.part = web.wood.mirrored()
    assert_mirror_images(web, image)


def test_tabs_that_cant_be_made() -> None:
    web, seat = under_a_seat(18, 18)
    low = Placed("web", web.part, web.at.moved(0, 0, -10))
    with pytest.raises(DesignError, match=r"web runs 8.00 mm into seat, 18 mm thick; tabs go right through"):
        tabbed(low, into=seat, at=(0,), width=40)
    with pytest.raises(DesignError, match=r"tabs do not lie on the edge of web, 300.0 mm long"):
        tabbed(web, into=seat, at=(140,), width=40)
    with pytest.raises(DesignError, match=f"less than {BESIDE:g} mm of seat between them"):
        tabbed(web, into=seat, at=(-20, 20), width=30)
    leaning = Placed("web", web.part, place((-150, 9, 0), "right", (0.0, -1.0, 0.2)))
    with pytest.raises(DesignError, match="does not stand square"):
        tabbed(leaning, into=seat, at=(0,), width=40)
