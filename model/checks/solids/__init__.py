"""What the checks measure on solids: boxes, facets, shared wood, clearances, what an eye sees."""
