"""How two placed parts come together: sides, ends, edges and corners, before any joint is cut."""
