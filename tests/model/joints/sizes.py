"""Random sizes for joints, to the micrometre: finer than any shop measures, coarser than what is rounded off."""

from hypothesis import strategies as st


def mm(low: float, high: float) -> st.SearchStrategy[float]:
    """Lengths in mm, to 0.001; shares and ratios too."""
    return st.floats(low, high).map(lambda size: round(size, 3))
