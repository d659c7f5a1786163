"""What stands on paper: sheets as data, their frame, lettering and dimensions."""
