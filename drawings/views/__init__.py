"""How a piece looks from one side: hidden-line projection, as plane curves."""
