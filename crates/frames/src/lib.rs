//! Text of an ELM327-style adapter to decoded values of the standard diagnostic services: pure, table-driven.
