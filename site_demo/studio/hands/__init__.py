"""How each hand puts a mark on a card: one module a medium, no subjects in them."""
