"""The desk's page: briefs kept in a book, drawn and answered while one types."""
