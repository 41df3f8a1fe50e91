//! Serial port to replies: links, codec, dialect and poll schedule of an ELM327-style adapter, read-only by construction.
