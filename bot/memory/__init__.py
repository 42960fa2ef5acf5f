"""What a chat told us, kept over restarts: SQLite by default, PostgreSQL by URL.

Start at store.py. Importing this package loads no database library; importing store does, so a message
without a chat never pays for it. Nothing here knows what a spec or an answer means.
"""
