"""Benchmarks: ratios within one run, printed, never asserted. Run one with python -m tests.bench.NAME."""
