"""Floors that give heat: the tube and what lies around it, between two tubes and by the standard's curve."""
