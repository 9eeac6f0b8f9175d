"""What is answered to each address."""
