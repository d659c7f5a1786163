"""What a piece of furniture is: stock, cuts, parts, joints, and the checks on them.

These are the words a piece script is written in:  from model import Parameters, Piece, board, dado, place, size
Each is loaded when it is first asked for, so that importing the package costs nothing. The joint `dado` lets a shelf
into a side; the cut of that name is a `Channel`, as is a groove.
"""

import lazy_loader

# the words themselves, and where each comes from, stand in __init__.pyi
__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
