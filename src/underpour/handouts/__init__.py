"""What is handed out of a dossier or a product: which pictures a paper takes, and the paper made of them."""
