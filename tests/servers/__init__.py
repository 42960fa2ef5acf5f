"""Tests against real servers and clients that nobody of us wrote. install.py puts them into .servers, once."""
