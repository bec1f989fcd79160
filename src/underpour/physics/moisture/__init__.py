"""Humid air at surfaces, vapour through layers, and concrete that dries."""
