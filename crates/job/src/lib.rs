//! The procedure of one job as a fold over its events: steps, preconditions, balance, level error.
