"""Handbook figures for wood: species and their properties, lumber as it is sawn, dressed and sold.

The tables stand beside the code as CSV in their published inch-pound units; reading
them converts to mm, MPa and N.
"""
