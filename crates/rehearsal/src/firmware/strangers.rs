//! What hangs on a port without being an adapter for a vehicle.

use super::{Firmware, Habit, ORIGINAL_21};

/// Echoes for ever.
pub const WIRED_LOOP: Firmware = Firmware {
    name: "wired-loop",
    says: "No adapter: whatever is sent comes back, never a prompt (a wired loop, or one without supply).",
    source: "exchanges.csv X034; python-OBD #199",
    habits: &[Habit::Loop],
    ..ORIGINAL_21
};

/// A telephone modem.
pub const MODEM: Firmware = Firmware {
    name: "modem",
    says: "No adapter: a modem, which knows AT lines of its own and says ERROR to the others.",
    source: "exchanges.csv X011, X012; python-OBD #277",
    habits: &[Habit::Modem],
    ..ORIGINAL_21
};

/// Nothing comes back.
pub const DEAD: Firmware = Firmware {
    name: "dead",
    says: "Nothing comes back, at any rate.",
    source: "exchanges.csv X035; python-OBD #214",
    habits: &[Habit::Silent],
    ..ORIGINAL_21
};
