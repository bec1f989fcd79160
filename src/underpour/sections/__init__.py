"""The vertical cut through an edge: polygons with materials, and what touches air."""
