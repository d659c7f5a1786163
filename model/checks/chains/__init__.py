"""Chains of sizes, closed loops of parts, and builds of them with the shop's errors."""
