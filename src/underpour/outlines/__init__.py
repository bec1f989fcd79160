"""Outlines of floors, with straight sides and arcs: lengths, areas, corners, what meets what. Nothing but Python."""
