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

/// The median of values with weights, between neighbours; `None` where there are none.
pub fn weighted_median(values: &[(f64, f64)]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
    let half = sorted.iter().map(|(_, w)| w).sum::<f64>() / 2.0;
    // Each value sits in the middle of its weight.
    let (mut below, mut before) = (0.0, None);
    for (value, weight) in sorted {
        let place = below + weight / 2.0;
        if place >= half {
            return Some(
                before.map_or(value, |(at, lower)| lower + (value - lower) * (half - at) / (place - at)),
            );
        }
        (below, before) = (below + weight, Some((place, value)));
    }
    before.map(|(_, value)| value)
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

/// A figure over groups drawn anew with replacement, [`DRAWINGS`] times: how much it owes to the groups that happened to be there.
/// The drawings are the same each time. Source: Efron, Bootstrap methods, Ann. Statist. 7 (1979).
pub fn redrawn<T: Clone>(groups: &[Vec<T>], figure: impl Fn(&[T]) -> f64) -> Vec<f64> {
    let mut state = 1_u64;
    // Splitmix64: Steele, Lea, Flood, OOPSLA 2014.
    let mut draw = || {
        state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (state ^ (state >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    };
    let one = |_| {
        let drawn = groups.iter().filter_map(|_| groups.get((draw() % groups.len() as u64) as usize));
        figure(&drawn.flatten().cloned().collect::<Vec<_>>())
    };
    (0..DRAWINGS).map(one).collect()
}

/// How often groups are drawn anew.
pub const DRAWINGS: usize = 400;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn groups_drawn_anew_scatter_as_the_theory_says() {
        // The mean of 16 ones and zeros, drawn anew, scatters by sqrt(0.25/16) = 0.125.
        let groups: Vec<Vec<f64>> = (0..16).map(|i| vec![f64::from(i % 2)]).collect();
        let means = redrawn(&groups, mean);
        let middle = mean(&means);
        let spread = mean(&means.iter().map(|m| (m - middle).powi(2)).collect::<Vec<_>>()).sqrt();
        assert!((middle - 0.5).abs() < 0.02 && (spread - 0.125).abs() < 0.02, "{middle} {spread}");
    }

    #[test]
    fn quantiles_lie_between_neighbours_and_the_score_punishes_misses_five_or_ten_fold() {
        assert_eq!(quantile(&[3.0, 1.0, 2.0], 0.5), 2.0);
        assert!((quantile(&[0.0, 10.0], 0.9) - 9.0).abs() < 1e-12);
        assert!(quantile(&[], 0.5).is_nan());
        assert_eq!(weighted_median(&[(3.0, 1.0), (1.0, 1.0), (2.0, 1.0)]), Some(2.0));
        assert_eq!(weighted_median(&[(0.0, 1.0), (10.0, 1.0)]), Some(5.0));
        assert_eq!(weighted_median(&[(0.0, 1.0), (10.0, 3.0)]), Some(7.5));
        assert_eq!(weighted_median(&[]), None);
        assert!((interval_score(10.0, 20.0, 15.0, 0.2) - 10.0).abs() < 1e-12);
        assert!((interval_score(10.0, 20.0, 23.0, 0.2) - 40.0).abs() < 1e-12);
    }
}
