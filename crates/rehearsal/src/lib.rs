//! A simulated vehicle and adapter, and a scripted technician, in virtual time.
