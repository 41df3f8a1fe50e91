//! The claims on time: how much of all `go` was false, and how much of it was withheld.
//!
//! In: a campaign. Out: [`ByTime`], of each signal what all runs come to together, and the claims that do not hold.
//! A claim that tolerates as much error as the guard band keeps does not see the guard band: with `k = 0` the truth lay
//! outside the band in two of three runs that had a `go`, and 2 of 600 were outside by more than k·u. These see it.
//! Not here: the claims on single moments and on records (`campaign.rs`), the time of one run (`go_time.rs`).

use core::time::Duration;

use events::Signal;

use super::Campaign;
use crate::go_time::Times;

/// All runs of one signal together.
#[derive(Debug, Clone, PartialEq)]
pub struct ByTime {
    /// Which.
    pub signal: Signal,
    /// Runs that could reach `go`: it was possible, or came.
    pub could: u64,
    /// Runs with a `go`.
    pub went: u64,
    /// Runs with the truth outside the band at some moment of a `go`: false acceptances.
    pub falsely: u64,
    /// Their times, added up.
    pub times: Times,
    /// The seed with the farthest.
    pub worst_seed: Option<u64>,
}

impl ByTime {
    /// Of this signal.
    pub(super) fn of(campaign: &Campaign, signal: Signal) -> Self {
        let mut all =
            Self { signal, could: 0, went: 0, falsely: 0, times: Times::default(), worst_seed: None };
        for finding in campaign.findings.iter().filter(|finding| finding.signal == signal) {
            let before = all.times.worst;
            all.could += u64::from(finding.could_go());
            all.went += u64::from(finding.u_at_go.is_some());
            all.falsely += u64::from(finding.times.worst.is_some());
            all.times.add(&finding.times);
            if all.times.worst != before {
                all.worst_seed = Some(finding.seed);
            }
        }
        all
    }

    /// The share of the time in `go` with the truth outside the band.
    pub fn share_outside(&self) -> f64 {
        share(self.times.outside, self.times.go)
    }

    /// The farthest outside, K.
    pub fn worst_k(&self) -> f64 {
        self.times.worst.map_or(0.0, |(k, _)| k)
    }

    /// The share of the time in the plain guard band, all well, without `go`.
    pub fn false_wait(&self) -> f64 {
        share(self.times.withheld_in_all(), self.times.plain)
    }

    /// The causes of that, the longest first, each as a share of the time in the plain guard band.
    pub fn causes(&self) -> Vec<(&'static str, f64)> {
        let mut causes: Vec<(&str, f64)> =
            self.times.withheld.iter().map(|(why, time)| (*why, share(*time, self.times.plain))).collect();
        causes.sort_by(|one, other| other.1.total_cmp(&one.1));
        causes
    }

    /// The claims that do not hold, in words.
    fn broken(&self) -> Vec<String> {
        let mut broken = Vec::new();
        // The lamp is the band itself: nobody but its maker can say that it is false.
        if self.signal == Signal::Lamp {
            return broken;
        }
        let (signal, seed) = (self.signal.word(), self.worst_seed.unwrap_or_default());
        if self.share_outside() > MOST_OUTSIDE {
            broken.push(format!(
                "{signal}: the truth lay outside the band for {:.2} % of the time in `go`, more than {:.1} %",
                100.0 * self.share_outside(),
                100.0 * MOST_OUTSIDE
            ));
        }
        if self.worst_k() > FARTHEST_K {
            broken.push(format!(
                "{signal}: a `go` with the truth {:.2} K outside the band, farther than {FARTHEST_K} K (seed {seed})",
                self.worst_k()
            ));
        }
        broken
    }
}

impl Campaign {
    /// Of each signal that was there, what its runs come to in time.
    pub fn by_time(&self) -> Vec<ByTime> {
        let all = Signal::ALL.iter().map(|signal| ByTime::of(self, *signal));
        all.filter(|of| self.findings.iter().any(|finding| finding.signal == of.signal)).collect()
    }

    /// The claims on time that do not hold, in words.
    pub fn false_acceptance(&self) -> Vec<String> {
        self.by_time().iter().flat_map(ByTime::broken).collect()
    }

    /// The runs that could reach `go`: a claim on `go` is tried in these only.
    pub fn could_go(&self) -> u64 {
        self.findings.iter().filter(|finding| finding.could_go()).count() as u64
    }
}

fn share(of: Duration, all: Duration) -> f64 {
    if all.is_zero() { 0.0 } else { of.as_secs_f64() / all.as_secs_f64() }
}

/// No more of the time in `go` than this with the truth outside the band.
/// Own choice: a fifth of what the missing sensor term makes, five times what the gate as it is makes.
pub const MOST_OUTSIDE: f64 = 0.001;
/// And never farther than this, K.
/// Own choice: a tenth of the level's tolerance in mL at 10 to 15 mL/K.
pub const FARTHEST_K: f64 = 0.5;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::campaign::Form;
    use crate::campaign::tests::nothing_said;

    /// Runs of a fluid with an hour of `go` each, false for so long and by so much.
    fn campaign(runs: &[(u64, f64)]) -> Campaign {
        let findings = runs.iter().map(|&(outside_s, worst_k)| {
            let mut finding = nothing_said(Form::AsDrawn);
            finding.signal = Signal::Fluid;
            finding.u_at_go = Some(0.7);
            finding.times.go = Duration::from_secs(3_600);
            finding.times.outside = Duration::from_secs(outside_s);
            finding.times.worst = (outside_s > 0).then_some((worst_k, units::Mono::ZERO));
            finding
        });
        Campaign { findings: findings.collect() }
    }

    #[test]
    fn each_claim_can_fail() {
        assert_eq!(campaign(&[(0, 0.0), (3, 0.4)]).false_acceptance(), Vec::<String>::new());
        let long = campaign(&[(0, 0.0), (10, 0.1)]).false_acceptance();
        assert!(long.len() == 1 && long.iter().all(|why| why.contains("0.14 %")), "{long:?}");
        let far = campaign(&[(1, 0.6), (1, 0.1)]).false_acceptance();
        assert!(far.len() == 1 && far.iter().all(|why| why.contains("0.60 K")), "{far:?}");
    }

    #[test]
    fn only_runs_that_could_reach_go_bound_its_rate() {
        let mut campaign = campaign(&[(0, 0.0), (0, 0.0), (0, 0.0)]);
        if let Some(first) = campaign.findings.first_mut() {
            first.u_at_go = None;
        }
        assert_eq!(campaign.could_go(), 2);
    }
}
