"""What is said on the sheet beside the views: lists, border, title block."""
