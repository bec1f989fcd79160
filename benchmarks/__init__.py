"""How long things take beside general-purpose libraries that reach the same error, in one run: see ``__main__``."""
