//! The vocabulary everybody shares: events, requests, verdicts, reasons, steps, sheets.
