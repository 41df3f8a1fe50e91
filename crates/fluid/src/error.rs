//! Why a formula gave no number.
//!
//! In: nothing. Out: [`FluidError`]. Not here: the limits themselves (`range.rs`), and words for people about what
//! to do next; those join at the edge, where it is known which option or which line of a sheet was meant.

/// Why a formula gave no number. Carries what its message needs, so that nobody has to guess which input it was.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FluidError {
    /// An input, or a result that would have to travel further, lies outside what the formula is good for.
    #[error("{quantity} is {value} {unit}; it must lie from {low} to {high} {unit}")]
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
    #[error("{first} ({first_value}) and {second} ({second_value}) do not go together: {why}")]
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
