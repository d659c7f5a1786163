"""The piece to turn in a browser: meshes, GLB and the page."""
