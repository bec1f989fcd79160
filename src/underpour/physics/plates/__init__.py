"""Slabs as plates and beams on springs: closed forms, and the plate by elements."""
