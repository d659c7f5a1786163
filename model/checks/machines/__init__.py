"""What a cut asks of a machine, and which of the shop's can do it."""
