"""Panels laid on a floor: rows, pieces, which panel each piece comes from, bounds, and a proof that a plan holds."""
