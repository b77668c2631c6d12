"""What cards lie on and among: grounds, things, hands, light and shade."""
