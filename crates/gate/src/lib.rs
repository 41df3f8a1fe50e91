//! Readings and time to estimate, forecast and verdict: pure, and wait unless all is known.
