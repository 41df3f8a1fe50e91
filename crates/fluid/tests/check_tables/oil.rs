//! Dilution, mixing, viscosity, radiation and units.

crate::tables! {}
