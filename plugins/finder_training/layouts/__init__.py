"""How cards lie and are photographed, by kind of picture."""
