//! The quantities. One macro gives each the same doors, so whoever knows one knows all.

use core::fmt;
use core::ops::{Add, Neg, Sub};

macro_rules! quantity {
    (
        $(#[$doc:meta])*
        $name:ident: $per_unit:literal per $unit:literal, $low:literal ..= $high:literal, shown with $digits:literal
    ) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(i32);

        impl $name {
            /// The smallest value that can be held.
            pub const LOWEST: Self = Self($low * $per_unit);
            /// The largest value that can be held.
            pub const HIGHEST: Self = Self($high * $per_unit);
            #[doc = concat!("How many of the stored steps make one ", $unit, ".")]
            pub const PER_UNIT: i32 = $per_unit;

            #[doc = concat!("From stored steps (", stringify!($per_unit), " make one ", $unit, "); `None` outside the range.")]
            pub const fn from_steps(steps: i32) -> Option<Self> {
                if steps < Self::LOWEST.0 || steps > Self::HIGHEST.0 { None } else { Some(Self(steps)) }
            }

            #[doc = concat!("From a number of ", $unit, ", rounded to the nearest step, halves away from zero; `None` if not finite or outside the range.")]
            pub fn from_f64(value: f64) -> Option<Self> {
                let steps = value * f64::from($per_unit);
                if !steps.is_finite() || steps.abs() > 2.0e9 {
                    return None;
                }
                let half = if steps < 0.0 { -0.5 } else { 0.5 };
                Self::from_steps((steps + half) as i32)
            }

            #[doc = concat!("From a number of ", $unit, ", moved into the range where it lies outside; not-a-number gives the lowest value.")]
            pub fn clamped(value: f64) -> Self {
                let (low, high) = (Self::LOWEST.to_f64(), Self::HIGHEST.to_f64());
                Self::from_f64(if value >= high { high } else if value > low { value } else { low })
                    .unwrap_or(Self::LOWEST)
            }

            #[doc = concat!("The stored steps: ", stringify!($per_unit), " make one ", $unit, ".")]
            pub const fn steps(self) -> i32 {
                self.0
            }

            #[doc = concat!("The value in ", $unit, ", for formulas.")]
            pub fn to_f64(self) -> f64 {
                f64::from(self.0) / f64::from($per_unit)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                let digits = f.precision().unwrap_or($digits);
                // Rounded on the integer, so that a shown zero never carries a minus sign.
                let scale = 10_i64.pow(digits.min(9) as u32);
                let scaled = i64::from(self.0) * scale;
                let per = i64::from(Self::PER_UNIT);
                let rounded = (scaled.abs() * 2 + per) / (2 * per);
                let sign = match (self.0 < 0 && rounded != 0, f.sign_plus()) {
                    (true, _) => "-",
                    (false, true) => "+",
                    (false, false) => "",
                };
                if digits == 0 {
                    return write!(f, "{sign}{rounded}");
                }
                write!(f, "{sign}{}.{:0width$}", rounded / scale, rounded % scale, width = digits)
            }
        }

        #[cfg(feature = "serde")]
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                if $per_unit == 1 { serializer.serialize_i32(self.0) } else { serializer.serialize_f64(self.to_f64()) }
            }
        }

        #[cfg(feature = "serde")]
        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let value = <f64 as serde::Deserialize>::deserialize(deserializer)?;
                Self::from_f64(value).ok_or_else(|| {
                    serde::de::Error::custom(format_args!(
                        "{value} {} is outside {} to {}", $unit, Self::LOWEST, Self::HIGHEST
                    ))
                })
            }
        }

        #[cfg(feature = "schemars")]
        impl schemars::JsonSchema for $name {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({
                    "type": if $per_unit == 1 { "integer" } else { "number" },
                    "description": concat!("in ", $unit),
                    "minimum": $low,
                    "maximum": $high,
                })
            }
        }
    };
}

quantity! {
    /// A temperature: a point on the scale, so two of them cannot be added.
    Celsius: 100 per "°C", -273 ..= 7000, shown with 1
}
quantity! {
    /// A difference of temperatures, or an uncertainty of one.
    Kelvins: 100 per "K", -7300 ..= 7300, shown with 1
}
quantity! {
    /// A volume, or a change of one. Positive is too much fluid, negative too little.
    Millilitres: 1 per "mL", -100000 ..= 100000, shown with 0
}
quantity! {
    /// A height or a length.
    Millimetres: 100 per "mm", -20000 ..= 20000, shown with 1
}
quantity! {
    /// An angle of the vehicle. Pitch: nose up is positive. Roll: left side up is positive.
    Degrees: 100 per "degrees", -90 ..= 90, shown with 1
}
quantity! {
    /// A rotational speed of the engine.
    Rpm: 1 per "1/min", 0 ..= 20000, shown with 0
}
quantity! {
    /// A speed of the vehicle.
    KilometresPerHour: 1 per "km/h", 0 ..= 500, shown with 0
}
quantity! {
    /// A voltage.
    Millivolts: 1 per "mV", 0 ..= 100000, shown with 0
}
quantity! {
    /// A tightening torque.
    NewtonMetres: 10 per "N·m", 0 ..= 1000, shown with 1
}

impl Sub for Celsius {
    type Output = Kelvins;
    fn sub(self, other: Self) -> Kelvins {
        Kelvins(self.0.saturating_sub(other.0).clamp(Kelvins::LOWEST.0, Kelvins::HIGHEST.0))
    }
}

impl Add<Kelvins> for Celsius {
    type Output = Self;
    fn add(self, rise: Kelvins) -> Self {
        Self(self.0.saturating_add(rise.0).clamp(Self::LOWEST.0, Self::HIGHEST.0))
    }
}

impl Sub<Kelvins> for Celsius {
    type Output = Self;
    fn sub(self, fall: Kelvins) -> Self {
        self + Kelvins(-fall.0)
    }
}

macro_rules! sums {
    ($($name:ident)*) => { $(
        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0.saturating_add(other.0).clamp(Self::LOWEST.0, Self::HIGHEST.0))
            }
        }
        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0.saturating_sub(other.0).clamp(Self::LOWEST.0, Self::HIGHEST.0))
            }
        }
        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self((-self.0).clamp(Self::LOWEST.0, Self::HIGHEST.0))
            }
        }
        impl $name {
            /// Nothing of it.
            /// By definition.
            pub const ZERO: Self = Self(0);
            /// Its size without its sign.
            pub const fn abs(self) -> Self {
                Self(self.0.abs())
            }
        }
    )* };
}

sums! { Kelvins Millilitres Millimetres Degrees }

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn numbers_are_shown_as_people_write_them() {
        let cases: &[(&str, String, &str)] = &[
            ("one digit by default", Celsius(3_840).to_string(), "38.4"),
            ("rounds half away from zero", Celsius(3_845).to_string(), "38.5"),
            ("below zero", Celsius(-405).to_string(), "-4.1"),
            ("no minus zero", Celsius(-4).to_string(), "0.0"),
            ("asked for two digits", format!("{:.2}", Celsius(3_841)), "38.41"),
            ("a change carries its sign", format!("{:+}", Millilitres(44)), "+44"),
            ("whole numbers", Rpm(712).to_string(), "712"),
        ];
        for (what, got, want) in cases {
            assert_eq!(got, want, "{what}");
        }
    }

    #[test]
    fn impossible_values_cannot_be_made() {
        assert_eq!(Celsius::from_f64(f64::NAN), None);
        assert_eq!(Celsius::from_f64(f64::INFINITY), None);
        assert_eq!(Celsius::from_f64(-274.0), None, "below absolute zero");
        assert_eq!(Rpm::from_f64(-1.0), None);
        assert_eq!(Celsius::clamped(f64::NAN), Celsius::LOWEST);
        assert_eq!(Celsius::clamped(1e12), Celsius::HIGHEST);
    }

    proptest! {
        #[test]
        fn steps_survive_the_way_through_f64(steps in -27_000i32..200_000) {
            let there = Celsius::from_steps(steps).unwrap();
            prop_assert_eq!(Celsius::from_f64(there.to_f64()), Some(there));
        }

        #[test]
        fn a_difference_added_again_is_where_it_was(a in -27_000i32..200_000, b in -27_000i32..200_000) {
            let (a, b) = (Celsius(a), Celsius(b));
            prop_assert_eq!(b + (a - b), a);
        }
    }
}
