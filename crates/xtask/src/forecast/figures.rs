//! Order statistics and the interval score.

/// The quantile `q` (0 to 1) of `values`, between neighbours; not-a-number where there are none.
pub fn quantile(values: &[f64], q: f64) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let place = q * sorted.len().saturating_sub(1) as f64;
    let (below, share) = (place.floor() as usize, place.fract());
    match (sorted.get(below), sorted.get(below + 1)) {
        (Some(a), Some(b)) => a + (b - a) * share,
        (Some(a), None) => *a,
        _ => f64::NAN,
    }
}

/// The mean; not-a-number where there are none.
pub fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// The interval score at coverage `1 - alpha`: width, plus `2/alpha` times by how much the truth was missed. Smaller is
/// better. Source: Gneiting and Raftery, Strictly proper scoring rules, JASA 102 (2007), section 6.2.
pub fn interval_score(low: f64, high: f64, truth: f64, alpha: f64) -> f64 {
    (high - low) + 2.0 / alpha * ((low - truth).max(0.0) + (truth - high).max(0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_lie_between_neighbours_and_the_score_punishes_misses_five_or_ten_fold() {
        assert_eq!(quantile(&[3.0, 1.0, 2.0], 0.5), 2.0);
        assert!((quantile(&[0.0, 10.0], 0.9) - 9.0).abs() < 1e-12);
        assert!(quantile(&[], 0.5).is_nan());
        assert!((interval_score(10.0, 20.0, 15.0, 0.2) - 10.0).abs() < 1e-12);
        assert!((interval_score(10.0, 20.0, 23.0, 0.2) - 40.0).abs() < 1e-12);
    }
}
