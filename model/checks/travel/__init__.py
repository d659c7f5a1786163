"""Parts on the move: straight ways, turns, legs, the order in which they come home."""
