"""How the slab is laid: product data, the works in their order, what to look at, and who must confirm what."""
