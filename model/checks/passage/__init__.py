"""Bringing a piece in: its hull, doorways, corners, stairs."""
