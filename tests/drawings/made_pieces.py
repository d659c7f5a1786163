"""Pieces with their orders, as the tests of lists and cutting files need them."""

from functools import cache

from model.order import Order, order_from_text, read_order
from model.piece import Piece
from model.pieces import design


@cache
def example(name: str) -> tuple[Piece, Order]:
    """A shipped example; shared, so not to be changed."""
    return made(read_order(name))


@cache
def in_inches(piece: str, units: str = "in") -> tuple[Piece, Order]:
    """A design at its default sizes, ordered in inches and made of 3/4 in stock; shared, so not to be changed."""
    text = f'piece = "{piece}"\nname = "inches"\nunits = "{units}"\n[wood]\nthickness = "3/4 in"\n'
    return made(order_from_text(text))


def made(order: Order) -> tuple[Piece, Order]:
    found = design(order.piece)
    return found.make(order.parameters(found.parameters)), order
