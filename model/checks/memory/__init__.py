"""What was asked before, kept between runs under digests of what was asked."""
