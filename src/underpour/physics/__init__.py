"""Formulas and solvers of the trade: SI floats and arrays in, SI floats and arrays out."""
