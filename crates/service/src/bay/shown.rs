//! What was said last, and which changes of it are told, when.
//!
//! In: the verdict, the estimate, the forecast and the advice as they are now. Out: the bodies to be told. Pure. Not here: the
//! verdict itself (`gate`), the advice (`job`).

use std::time::Duration;

use events::{Advice, Body, Estimate, Forecast, Precondition, Reason, RunOutAhead, SeatAdvice, Verdict};
use gate::Judgement;
use units::Mono;

/// A change of the place at an edge of the band is told at most this often.
/// Own choice: a value that swings about an edge would be told with each reading; a person needs some seconds to act on
/// it.
const EDGE_EVERY: Duration = Duration::from_secs(10);
/// Estimates are shown at most this often.
/// Own choice: what a person can read; twice a second would double the journal without a word more.
const ESTIMATE_EVERY: Duration = Duration::from_millis(1_000);
/// Forecasts are shown at most this often.
/// Own choice: a time that changes each second cannot be read, and in 5 s it moves by 5 s.
const FORECAST_EVERY: Duration = Duration::from_millis(5_000);

/// See the module's words.
#[derive(Default)]
pub(super) struct Shown {
    verdict: Option<ShownVerdict>,
    estimate: Option<Mono>,
    /// When a forecast was shown, and whether it said anything.
    forecast: Option<(Mono, bool)>,
    run_out: Option<RunOutAhead>,
    advice: Option<SeatAdvice>,
}

/// A verdict as it was told.
struct ShownVerdict {
    verdict: Verdict,
    reasons: Vec<Reason>,
    open: Vec<Precondition>,
    at: Mono,
}

impl Shown {
    /// The verdict and its reasons, as they were told.
    pub(super) fn verdict(&self) -> (Verdict, Vec<Reason>) {
        match &self.verdict {
            Some(shown) => (shown.verdict, shown.reasons.clone()),
            None => (Verdict::Wait, vec![Reason::NoReading]),
        }
    }

    /// What is said to both seats.
    pub(super) fn advice(&self) -> SeatAdvice {
        self.advice.unwrap_or_else(|| Advice::StartJob.into())
    }

    /// `forecast` with the run-out that was shown with it.
    pub(super) fn with_run_out(&self, forecast: Forecast) -> Forecast {
        Forecast { run_out: self.run_out, ..forecast }
    }

    /// The verdict with what is `open`, where that is news: at once where the verdict, what is open or a lasting reason changed; now
    /// and then where only the place at an edge of the band did, for a shown value flickers there many times.
    pub(super) fn tell_verdict(
        &mut self,
        judged: &Judgement,
        open: Vec<Precondition>,
        at: Mono,
    ) -> Option<Body> {
        if self.verdict.as_ref().is_some_and(|before| !before.differs(judged, &open, at)) {
            return None;
        }
        let reasons = judged.reasons.to_vec();
        let forecast = judged.forecast.unwrap_or_default();
        let body = Body::Verdict {
            verdict: judged.verdict,
            reasons: reasons.clone(),
            open: open.clone(),
            celsius: judged.estimate.map(|e| e.celsius),
            u: judged.estimate.map(|e| e.u),
            opens_in: forecast.opens_in,
            closes_in: forecast.closes_in,
            read_again_in: forecast.read_again_in,
        };
        self.verdict = Some(ShownVerdict { verdict: judged.verdict, reasons, open, at });
        Some(body)
    }

    /// The estimate, now and then.
    pub(super) fn tell_estimate(&mut self, estimate: Option<Estimate>, now: Mono) -> Option<Body> {
        let estimate = estimate.filter(|_| is_due(self.estimate, ESTIMATE_EVERY, now))?;
        self.estimate = Some(now);
        Some(Body::Estimate(estimate))
    }

    /// The forecast, now and then, and when it comes or goes; `run_out` says when the fluid stops running, by a forecast that is
    /// told.
    pub(super) fn tell_forecast(
        &mut self,
        forecast: Option<Forecast>,
        run_out: impl FnOnce(&Forecast) -> Option<RunOutAhead>,
        now: Mono,
    ) -> Option<Body> {
        let forecast = forecast.filter(|f| *f != Forecast::default());
        let (last, was) = self.forecast.unzip();
        let same = was.unwrap_or_default() == forecast.is_some();
        if same && !(forecast.is_some() && is_due(last, FORECAST_EVERY, now)) {
            return None;
        }
        self.run_out = forecast.and_then(|f| run_out(&f));
        self.forecast = Some((now, forecast.is_some()));
        Some(Body::Forecast(forecast.map(|f| self.with_run_out(f)).unwrap_or_default()))
    }

    /// The advice, where it became another.
    pub(super) fn tell_advice(&mut self, said: SeatAdvice) -> Option<Body> {
        let news = self.advice != Some(said);
        self.advice = Some(said);
        news.then_some(Body::Advice(said))
    }
}

impl ShownVerdict {
    fn differs(&self, judged: &Judgement, open: &[Precondition], now: Mono) -> bool {
        let lasting = lasting(&self.reasons).eq(lasting(&judged.reasons));
        if self.verdict != judged.verdict || self.open != open || !lasting {
            return true;
        }
        *self.reasons != *judged.reasons && now >= self.at.after(EDGE_EVERY)
    }
}

/// Those that do not speak of the place in the band.
fn lasting(reasons: &[Reason]) -> impl Iterator<Item = &Reason> {
    reasons.iter().filter(|reason| !reason.is_at_edge())
}

fn is_due(last: Option<Mono>, every: Duration, now: Mono) -> bool {
    last.is_none_or(|at| now >= at.after(every))
}
