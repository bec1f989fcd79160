"""What the page asks and sends, as JSON: one file for each subject."""
