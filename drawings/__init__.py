"""What is drawn, listed and written from a piece."""
