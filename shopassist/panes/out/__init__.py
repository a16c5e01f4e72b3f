"""What leaves the program: sheet, table, calendar, a batch as a file, and backups."""
