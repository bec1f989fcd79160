"""How a book comes from one form to the next: a file for each step, in ``versions``, never edited once it was used."""
