"""Frost in the ground: depths by formula, the design winter, and a section that freezes and thaws through it."""
