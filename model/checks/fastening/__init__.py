"""Where nails, screws and loose pieces sit, and what they need around them."""
