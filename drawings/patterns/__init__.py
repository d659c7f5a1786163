"""Full-size patterns: outlines and rods at 1:1, tiled onto the order's paper and as one strip for a plotter."""
