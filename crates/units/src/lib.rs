//! Quantities with their units.
//!
//! What is stored, compared and shown is an integer behind a private field with a checked constructor, so that
//! the same digits come out on every machine and an impossible value cannot travel. `f64` exists only inside a
//! formula; each type has one named way in (`from_f64`, rounds half away from zero) and one out (`to_f64`).
//!
//! | type | holds | in steps of |
//! | --- | --- | --- |
//! | [`Celsius`], [`Kelvins`] | a temperature; a difference of temperatures | 0.01 °C, 0.01 K |
//! | [`Millilitres`] | a volume or a change of volume; positive is too much fluid | 1 mL |
//! | [`Millimetres`] | a height or a length | 0.01 mm |
//! | [`Degrees`] | an angle of the vehicle | 0.01° |
//! | [`Rpm`], [`KilometresPerHour`], [`Millivolts`], [`NewtonMetres`] | what they say | 1, 1, 1 mV, 0.1 N·m |
//! | [`Mono`] | an instant on our own monotonic clock | 1 ms |
//!
//! ```
//! use units::{Celsius, Kelvins};
//! let fluid = Celsius::from_f64(38.4).unwrap();
//! let later = fluid + Kelvins::from_f64(1.5).unwrap();
//! assert_eq!(later.to_string(), "39.9");
//! assert_eq!(later - fluid, Kelvins::from_f64(1.5).unwrap());
//! ```
//!
//! Every list of words in the house is made by [`words!`], a row each: it lives here because every crate may use this
//! one.
//!
//! Not here: physics (`fluid`), the words themselves (`events`). [`text`] is the only place that knows °F, quarts and
//! feet.

mod clock;
mod quantity;
pub mod text;
mod words;

pub use clock::{Clock, Mono, Sleep};
pub use quantity::{
    Celsius, Degrees, Kelvins, KilometresPerHour, Millilitres, Millimetres, Millivolts, NewtonMetres, Rpm,
};
pub use words::{Listed, UnknownWord};
