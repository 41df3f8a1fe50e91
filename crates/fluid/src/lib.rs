//! Physics of setting a transmission's fluid level: volume, level, tilt, dilution, viscosity, run-out, heat, radiometry, uncertainty.
