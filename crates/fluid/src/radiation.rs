//! What a black body radiates in a band of wavelengths, and the temperature that belongs to it.
//!
//! In: temperatures, a band. Out: W/m². Not here: emissivity and surroundings, which make a reading (`spot.rs`).
//! Source: Planck's law, its fraction below a wavelength as a series; constants exact since 2019.

use crate::{FluidError, range};

/// Which wavelengths an instrument sees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Band {
    /// All of them: `sigma*T^4`.
    Total,
    /// From the first to the second wavelength, µm.
    Micrometres(f64, f64),
}

impl Band {
    /// The band of nearly all hand-held instruments, 8 to 14 µm.
    /// Source: common practice, no source.
    pub const EIGHT_TO_FOURTEEN: Self = Self::Micrometres(8.0, 14.0);

    /// The band itself when its wavelengths are possible.
    ///
    /// # Errors
    /// Outside [`range::UM`], or in the wrong order.
    pub fn check(self) -> Result<Self, FluidError> {
        if let Self::Micrometres(short, long) = self {
            range::UM.check(short)?;
            range::UM.check(long)?;
            if short >= long {
                return Err(FluidError::Contradiction {
                    first: "shortest wavelength",
                    first_value: short,
                    second: "longest wavelength",
                    second_value: long,
                    why: "the band must have a width",
                });
            }
        }
        Ok(self)
    }
}

/// What a black body radiates in a band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exitance {
    /// In the band, W/m².
    pub w_m2: f64,
    /// As a share of all wavelengths.
    pub fraction: f64,
    /// By which power of the absolute temperature it grows: 4 for all wavelengths, 4.4 for 8 to 14 µm at 40 °C.
    pub log_slope: f64,
}

/// Fraction of black-body radiation below a wavelength, by the product of wavelength and temperature in µm·K.
///
/// # Errors
/// Outside [`range::UM_K`].
///
/// Source: Planck's law integrated term by term.
pub fn planck_fraction(um_k: f64) -> Result<f64, FluidError> {
    Ok(fraction_above(C2_UM_K / range::UM_K.check(um_k)?))
}

/// What a black body of `celsius` radiates in `band`.
///
/// # Errors
/// Outside [`range::CELSIUS`]; a band that is none.
pub fn exitance(celsius: f64, band: Band) -> Result<Exitance, FluidError> {
    band.check()?;
    Ok(exitance_k(range::CELSIUS.check(celsius)? + ZERO_CELSIUS_K, band))
}

/// What a black body of `celsius` radiates over all wavelengths, W/m².
///
/// # Errors
/// Outside [`range::CELSIUS`].
pub fn total_w_m2(celsius: f64) -> Result<f64, FluidError> {
    Ok(STEFAN_BOLTZMANN * (range::CELSIUS.check(celsius)? + ZERO_CELSIUS_K).powi(4))
}

/// The temperature of the black body that radiates `w_m2` in `band`, °C: the inverse of [`exitance`].
///
/// # Errors
/// A band that is none; [`FluidError::NoSolution`] where no temperature in [`range::CELSIUS`] radiates so much, and
/// for nothing or less.
pub fn celsius_of(w_m2: f64, band: Band) -> Result<f64, FluidError> {
    band.check()?;
    let (coldest, hottest) = range::CELSIUS.limits();
    let (mut low, mut high) = (coldest + ZERO_CELSIUS_K, hottest + ZERO_CELSIUS_K);
    if !(exitance_k(low, band).w_m2..=exitance_k(high, band).w_m2).contains(&w_m2) {
        return Err(FluidError::NoSolution {
            wanted: "temperature",
            why: "no body between -100 and 1000 °C radiates so; check emissivity and surroundings",
        });
    }
    // Newton on the logarithm, which is nearly straight; halving where a step would leave the bracket.
    let mut t = (low * high).sqrt();
    for _ in 0..NEWTON_STEPS {
        let here = exitance_k(t, band);
        if here.w_m2 < w_m2 {
            low = t
        } else {
            high = t
        }
        let next = t * (1.0 + (w_m2 / here.w_m2).ln() / here.log_slope);
        let next = if next >= low && next <= high { next } else { low / 2.0 + high / 2.0 };
        let moved = (next - t).abs();
        t = next;
        if moved < 1e-12 * t {
            break;
        }
    }
    Ok(t - ZERO_CELSIUS_K)
}

/// As [`exitance`], at a checked absolute temperature.
fn exitance_k(kelvin: f64, band: Band) -> Exitance {
    let total = STEFAN_BOLTZMANN * kelvin.powi(4);
    let Band::Micrometres(short, long) = band else {
        return Exitance { w_m2: total, fraction: 1.0, log_slope: 4.0 };
    };
    let (z_long, z_short) = (C2_UM_K / (long * kelvin), C2_UM_K / (short * kelvin));
    let fraction = fraction_above(z_long) - fraction_above(z_short);
    let log_slope = 4.0 + (slope(z_long) - slope(z_short)) / fraction;
    Exitance { w_m2: total * fraction, fraction, log_slope }
}

/// Fraction of photons' energy at reduced frequencies above `z`: `15/pi^4 * integral of u^3/(e^u - 1)`.
///
/// The sum over exponentials converges as `exp(-n z)`; below `z` of a half the power series of the rest does better.
fn fraction_above(z: f64) -> f64 {
    if z < 0.5 {
        let z2 = z * z;
        let rest = 1.0 / 3.0 - z / 8.0
            + z2 / 60.0 * (1.0 - z2 / 84.0 * (1.0 - z2 / 54.0 * (1.0 - z2 * 272_160.0 / 13_305_600.0)));
        return 1.0 - NORM * z * z2 * rest;
    }
    let mut sum = 0.0;
    for n in 1..MOST_TERMS {
        let n = f64::from(n);
        let term = (-n * z).exp() * (((z + 3.0 / n) * z + 6.0 / (n * n)) * z + 6.0 / (n * n * n)) / n;
        sum += term;
        if term < 1e-17 * sum {
            break;
        }
    }
    NORM * sum
}

/// How the fraction grows with the logarithm of the temperature.
fn slope(z: f64) -> f64 {
    NORM * z.powi(4) / z.exp_m1()
}

/// W/m²K⁴. Source: exact from the constants of 2019 (CODATA 2018).
const STEFAN_BOLTZMANN: f64 = 5.670_374_419_184_43e-8;
/// Second radiation constant `h*c/k`, µm·K. Source: exact from the constants of 2019 (CODATA 2018).
const C2_UM_K: f64 = 14_387.768_775_039_337;
/// 15/pi⁴.
/// By definition.
const NORM: f64 = 0.153_989_733_820_265_03;
/// 0 °C in K.
/// By definition of the degree Celsius.
pub(crate) const ZERO_CELSIUS_K: f64 = 273.15;
/// Terms of the series, and steps of the inverse, at the most.
/// Own choice: the series ends long before at the temperatures allowed; a limit so that it ends at all.
const MOST_TERMS: i32 = 200;
const NEWTON_STEPS: u32 = 100;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_constants_follow_from_the_exact_ones() {
        let (h, c, k) = (6.626_070_15e-34_f64, 299_792_458.0_f64, 1.380_649e-23_f64);
        let pi = core::f64::consts::PI;
        assert!((C2_UM_K / (h * c / k * 1e6) - 1.0).abs() < 1e-14);
        let sigma = 2.0 * pi.powi(5) * k.powi(4) / (15.0 * h.powi(3) * c * c);
        assert!((STEFAN_BOLTZMANN / sigma - 1.0).abs() < 1e-12, "{sigma}");
        assert!((NORM / (15.0 / pi.powi(4)) - 1.0).abs() < 1e-15);
    }

    #[test]
    fn the_two_series_meet() {
        let (a, b) = (fraction_above(0.499_999_999_999), fraction_above(0.500_000_000_001));
        assert!((a - b).abs() < 1e-11, "{a} {b}");
    }

    #[test]
    fn the_wavelength_of_the_peak_is_where_wien_puts_it() {
        // Wien's displacement constant, 2897.77 µm·K: a quarter of the energy lies below (0.25005).
        assert!((planck_fraction(2_897.771_955).unwrap() - 0.250_05).abs() < 1e-5);
    }

    #[test]
    fn a_band_without_width_is_refused_and_so_is_less_than_nothing() {
        assert!(exitance(40.0, Band::Micrometres(14.0, 8.0)).is_err());
        assert!(exitance(40.0, Band::Micrometres(8.0, f64::NAN)).is_err());
        assert!(matches!(celsius_of(-1.0, Band::Total), Err(FluidError::NoSolution { .. })));
        assert!(celsius_of(f64::NAN, Band::Total).is_err());
    }

    proptest! {
        #[test]
        fn the_fraction_never_falls_and_stays_between_nothing_and_all(x in 100.0..1.0e6, dx in 0.0..1.0e4) {
            let (a, b) = (planck_fraction(x).unwrap(), planck_fraction(x + dx).unwrap());
            prop_assert!(b >= a - 1e-15 && a >= 0.0 && b <= 1.0);
        }

        #[test]
        fn the_temperature_of_an_exitance_is_where_it_was(
            t in -90.0..900.0, band in prop_oneof![Just(Band::Total), Just(Band::EIGHT_TO_FOURTEEN)],
        ) {
            let back = celsius_of(exitance(t, band).unwrap().w_m2, band).unwrap();
            prop_assert!((back - t).abs() < 1e-9, "{back} for {t}");
        }

        #[test]
        fn the_slope_is_that_of_the_exitance(t in -50.0..500.0) {
            let at = |t| exitance(t, Band::EIGHT_TO_FOURTEEN).unwrap();
            let d = 0.01;
            let hotter = f64::ln((t + d + 273.15) / (t - d + 273.15));
            let want = f64::ln(at(t + d).w_m2 / at(t - d).w_m2) / hotter;
            prop_assert!((at(t).log_slope - want).abs() < 1e-5);
        }
    }
}
