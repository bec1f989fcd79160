"""Heat conduction in a section: the mean of the year and its first harmonic."""
