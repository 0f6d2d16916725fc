"""The second verifier of evidence packets, by the sections of core/src/evidence/FORMAT.md."""
