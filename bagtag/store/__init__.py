"""What is kept: tables, unit of work, migrations, journal, photo files."""
