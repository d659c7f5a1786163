"""Players of a sheet: the same data as DXF, SVG or PDF. Import the one that is wanted; each loads its own library."""
