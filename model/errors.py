"""What can go wrong, as one small tree.

    DryfitError
    ├── OrderError(ValueError)      an order or a parameter can't be used: file, key and remedy
    │   └── LengthError             a length can't be read
    └── DesignError(ValueError)     the sizes asked for can't be made into this piece or joint
        └── CutError                a cut can't be made in this stock

Each message says what was wrong, where, and what would be right: it is shown to the user as it stands.
"""


class DryfitError(Exception):
    """Any error meant for the user; never shown with a traceback."""


class OrderError(DryfitError, ValueError):
    """An order, or one value in it, can't be used."""


class LengthError(OrderError):
    """A text can't be read as a length."""


class DesignError(DryfitError, ValueError):
    """The sizes asked for can't be made into this piece."""


class CutError(DesignError):
    """A cut can't be made in the stock it is asked of."""
