"""The report's two forms say the same of how often a piece goes together."""

import pytest

from drawings.lists.figures import figures
from drawings.report import Report, as_dict, write_report_page
from model.checks.accuracy import accuracy
from model.checks.finding import Answer
from tests.drawings.made_pieces import example


def report_of(answer):
    piece, order = example("refuge-bookcase")
    told = {**figures(piece, order), "overall": "900 mm wide", **answer.figures}
    return Report(order, piece, answer, told)


@pytest.fixture
def page(tmp_path):
    def read(report):
        write_report_page(report, [], tmp_path / "report.html")
        return (tmp_path / "report.html").read_text(encoding="utf-8")

    return read


def test_what_the_builds_show_stands_in_both(page):
    piece, order = example("refuge-bookcase")
    report = report_of(accuracy(piece, order.shop))
    told = as_dict(report)["figures"]
    assert told["builds_that_go_together"] > told["builds_that_go_together_by_the_rule"] > 0.0
    assert told["worst_chain"] in str(as_dict(report)["findings"])
    shown = page(report)
    assert f"in {told['builds_that_go_together']:.0f} builds of 100" in shown
    assert f"in {told['builds_that_go_together_by_the_rule']:.0f} without marking from the work" in shown
    assert "boards side by side" in shown


def test_a_piece_that_nothing_was_asked_of_says_nothing_of_it(page):
    report = report_of(Answer())
    assert "builds_that_go_together" not in as_dict(report)["figures"]
    assert "Goes together" not in page(report)
