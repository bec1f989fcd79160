"""The tables of a brief, each key with its help text, its reader and how it may be written."""
