#![doc = include_str!("../README.md")]

pub mod bus;
pub mod campaign;
pub mod car;
pub mod clock;
pub mod dialect;
pub mod dice;
pub mod ecu;
pub mod embedded;
pub mod fault;
pub mod firmware;
pub mod layout;
pub mod liveness;
pub mod mistake;
pub mod observer;
pub mod pty;
pub mod sensors;
pub mod setup;
pub mod stage;
pub mod sump;
pub mod tcp;
pub mod technician;
pub mod thermal;
pub mod warmup;
pub mod world;

pub use bus::Bus;
pub use campaign::Campaign;
pub use car::{Car, SerialLine};
pub use fault::{Fault, FaultError, FaultKind};
pub use firmware::Firmware;
pub use mistake::{Mistake, MistakeError};
pub use observer::can_be_read;
pub use setup::{Keep, Setup};
pub use stage::{Ending, FalseGo, Program, Truth};
pub use technician::{Script, Technician};
pub use warmup::{Warmup, WarmupError};
pub use world::{Plug, Vehicle, World};
