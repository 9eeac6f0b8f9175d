"""What the pages of "Put on" show beyond the common frame, and what they write into job and firm file."""
