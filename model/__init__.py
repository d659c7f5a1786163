"""What a piece of furniture is: stock, cuts, parts, joints, and the checks on them."""
