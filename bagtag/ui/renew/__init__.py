"""What is bought new: by supplier, ordered, arrived, compared with the old part."""
