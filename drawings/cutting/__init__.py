"""Cutting files for a CNC shop."""
