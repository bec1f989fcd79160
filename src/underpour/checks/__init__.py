"""Checks: a resolved brief and its solved sections in, findings out. Nothing is printed, nothing is solved again."""
