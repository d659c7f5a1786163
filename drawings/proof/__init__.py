"""Proof of the drawings: what was written is read back and held against the solids."""
