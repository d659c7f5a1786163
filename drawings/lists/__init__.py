"""The shop's lists: parts, stock, hardware, set-ups, figures."""
