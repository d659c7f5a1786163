"""The plane geometry a maker lays out: long arcs, ordinates, boards round an arc, outlines."""
