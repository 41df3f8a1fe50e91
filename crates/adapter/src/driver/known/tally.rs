//! What is counted: for reports of an adapter's health, and to stop trying the same for ever.

use std::time::Duration;

use units::Mono;

/// What was dropped or missed since the link was opened, for health reports.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub struct Counts {
    /// Requests written.
    pub sent: u64,
    /// Replies given to the request that waited for them.
    pub replies: u64,
    /// Replies nobody waited for.
    pub surplus: u64,
    /// Zero bytes dropped.
    pub nuls: u64,
    /// Noise bytes dropped.
    pub noise: u64,
    /// Bytes that belonged to nobody.
    pub dropped: u64,
    /// Exchanges without a reply in time.
    pub timed_out: u64,
    /// Attempts to get back in step.
    pub resyncs: u64,
    /// Resets noticed.
    pub resets: u64,
    /// What became of the gating request.
    pub gating: Tries,
}

/// How often the gating request left. What is left of `asked` beside the answers and `again` brought nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tries {
    /// Times that it was written.
    pub asked: u64,
    /// Times that it was to be asked anew although nothing was lost: a change to be confirmed, a control unit that wants
    /// more time, a count of replies that the adapter does not take.
    pub again: u64,
}

/// How often things went wrong, to stop trying the same for ever.
#[derive(Debug, Default)]
pub(crate) struct Faults {
    /// Faults of its own that the adapter reported.
    pub(crate) own: Strikes,
    /// Data requests in a row without a reply in time.
    pub(crate) misses: u8,
    /// Resynchronisations for replies nobody waited for.
    pub(crate) surplus: Strikes,
    /// Resets suspected from the form of replies.
    pub(crate) forms: Strikes,
    /// Searches of an adapter whose protocol was named.
    pub(crate) searches: Strikes,
    /// When the line last spoilt something.
    pub(crate) damaged: Option<Mono>,
    /// A reset was made because the engine's control unit was not heard.
    pub(crate) reset_for_engine: bool,
    /// `ATFE` is due in the next set-up.
    pub(crate) forget_events: bool,
}

/// How often something happened lately.
#[derive(Debug, Default)]
pub(crate) struct Strikes {
    count: u8,
    last: Option<Mono>,
}

impl Strikes {
    /// After this long without another one, what was is forgotten.
    /// Own choice: faults of one cause come within seconds of each other; longer would add up those of a whole job.
    const MEMORY: Duration = Duration::from_secs(60);

    /// It happened again; how often lately, with this time.
    pub(crate) fn strike(&mut self, now: Mono) -> u8 {
        let forgotten = self.last.is_none_or(|last| now.since(last) > Self::MEMORY);
        self.count = if forgotten { 1 } else { self.count.saturating_add(1) };
        self.last = Some(now);
        self.count
    }
}
