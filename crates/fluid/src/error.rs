//! Why a formula gave no number.
//!
//! In: nothing. Out: [`FluidError`]. Not here: the limits themselves (`range.rs`), and words for people about what
//! to do next; those join at the edge, where it is known which option or which line of a sheet was meant.

use core::fmt;

/// Why a formula gave no number. Carries what its message needs, so that nobody has to guess which input it was.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FluidError {
    /// An input, or a result that would have to travel further, lies outside what the formula is good for.
    #[error("{quantity} is {} {unit}; it must lie from {} to {} {unit}", Plain(*value), Plain(*low), Plain(*high))]
    OutsideRange {
        /// Which quantity.
        quantity: &'static str,
        /// What it was; may be not-a-number.
        value: f64,
        /// The smallest value allowed, in `unit`.
        low: f64,
        /// The largest value allowed, in `unit`.
        high: f64,
        /// The unit of `value`, `low` and `high`.
        unit: &'static str,
    },
    /// Two inputs that are possible each on its own, but not together.
    #[error("{first} ({}) and {second} ({}) do not go together: {why}", Plain(*first_value), Plain(*second_value))]
    Contradiction {
        /// The first quantity.
        first: &'static str,
        /// Its value.
        first_value: f64,
        /// The second quantity.
        second: &'static str,
        /// Its value.
        second_value: f64,
        /// What is wrong with the pair.
        why: &'static str,
    },
    /// The equation has no answer a thing in this world could have.
    #[error("no {wanted} fits these values: {why}")]
    NoSolution {
        /// What was looked for.
        wanted: &'static str,
        /// Why there is none.
        why: &'static str,
    },
    /// An iteration did not settle.
    #[error("{wanted} did not settle within {steps} steps")]
    NotSettled {
        /// What was looked for.
        wanted: &'static str,
        /// How many steps were tried.
        steps: u32,
    },
    /// A list that is too short or too long for the formula.
    #[error("{quantity}: {got} given, {low} to {high} are needed")]
    Count {
        /// Of what.
        quantity: &'static str,
        /// How many there were.
        got: usize,
        /// The fewest that will do.
        low: usize,
        /// The most that are taken.
        high: usize,
    },
}

/// A number as people write it, with a power of ten where it would fill the line.
struct Plain(f64);

impl fmt::Display for Plain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let size = self.0.abs();
        if size != 0.0 && size.is_finite() && !(1e-6..1e9).contains(&size) {
            write!(f, "{:e}", self.0)
        } else {
            write!(f, "{}", self.0)
        }
    }
}
