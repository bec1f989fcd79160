"""Soil gas under a slab: suction through stone or panel channels, pits, pipe, fan, draught, what a test hole tells."""
