//! Is this adapter good, good with limits, or to be sent back? One table, read from the top: the first row that fits
//! decides.
//!
//! In: [`Findings`]. Out: [`Judgement`]. Pure. Not here: how it was found (`look.rs`), what to try (`advice.rs`), how
//! it is shown (`report.rs`). Each number has a name, and beside it where it comes from.

use std::time::Duration;

use events::{Party, Trouble};
use serde::Serialize;

/// What an adapter must read in a second to cost nothing.
/// Own choice: the daemon asks for the signal so often (`service`, the schedule).
const WANTED_PER_SECOND: f64 = 2.0;
/// Fewer readings in a second, and it is sent back.
/// Own choice: a reading older than 5 s is stale (docs/gate.md): with less than two chances in that time `go` comes and
/// goes.
const LEAST_PER_SECOND: f64 = 0.5;
/// As long as the signal may be silent before its last reading is stale (docs/gate.md).
/// Source: docs/gate.md: as long as the signal may be silent before its last reading is stale.
const HOLE: Duration = Duration::from_secs(5);
/// Up to this share of lost requests it is good.
/// Own choice: one in fifty is noticed by nobody: the next one comes half a second later.
const LOST_GOOD: f64 = 0.02;
/// Beyond this share it is sent back.
/// Own choice: of the ten requests in 5 s two are lost, and a job can still be done; beyond that a stale reading is a
/// matter of minutes.
const LOST_MOST: f64 = 0.20;
/// So many resets, and it is sent back.
/// Own choice: one that lost its settings so often in some seconds will not hold them for a job of an hour.
const RESETS_MOST: u64 = 3;
/// So many broken connections, and it is sent back.
/// Own choice: once it may have been pulled; twice it is loose.
const CUTS_MOST: u64 = 2;

/// What the adapter is worth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Worth {
    /// Nothing speaks against it.
    Good,
    /// The job can be done with it, and something is to be known before.
    GoodWithLimits,
    /// It is not worth keeping.
    SendItBack,
    /// The trouble is not the adapter's, or may not be.
    CannotTell,
}

impl Worth {
    /// As it stands in front of the closing line.
    pub const fn says(self) -> &'static str {
        match self {
            Self::Good => "good",
            Self::GoodWithLimits => "good with limits",
            Self::SendItBack => "send it back",
            Self::CannotTell => "cannot tell",
        }
    }
}

/// Requests for the gating signal that brought no reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub struct Lost {
    /// A control unit refused.
    pub refused: u64,
    /// Nobody answered in time.
    pub unanswered: u64,
    /// What came was damaged, or had to be asked for again.
    pub spoilt: u64,
    /// An answer came that is not built as it should be, or is somebody else's.
    pub undecodable: u64,
    /// How many of all these are held against the adapter.
    pub by_the_adapter: u64,
}

impl Lost {
    /// All of them.
    pub const fn all(self) -> u64 {
        self.refused + self.unanswered + self.spoilt + self.undecodable
    }
}

/// What the decision rests on, and nothing else.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Findings {
    /// Whether anything came from the port at all.
    pub heard: bool,
    /// Whether it said who it is.
    pub named: bool,
    /// Whether its set-up came to an end.
    pub set_up: bool,
    /// What stood in the way at the end.
    pub trouble: Option<Trouble>,
    /// Readings of the gating signal.
    pub readings: u64,
    /// Whether they still came at the end.
    pub still_reading: bool,
    /// Requests for it.
    pub requests: u64,
    /// Those that brought no reading.
    pub lost: Lost,
    /// Readings a second, once the adapter is known.
    pub per_second: f64,
    /// The longest time between two of them.
    pub hole: Duration,
    /// Replies that it did not end in time.
    pub late: u64,
    /// How often the adapter lost its settings for reasons of its own.
    pub resets: u64,
    /// How often it did because its supply dipped.
    pub dips: u64,
    /// How often the connection to it broke.
    pub cuts: u64,
    /// Lines of which the first character was lost.
    pub first_lost: u64,
    /// Whether replies do not name their sender.
    pub nameless: bool,
}

impl Findings {
    fn share(&self, of: u64) -> f64 {
        if self.requests == 0 { 0.0 } else { of as f64 / self.requests as f64 }
    }

    /// The share of requests that brought no reading.
    pub fn lost_share(&self) -> f64 {
        self.share(self.lost.all())
    }

    fn party(&self) -> Option<Party> {
        self.trouble.map(Trouble::party)
    }

    fn unread(&self) -> bool {
        self.readings == 0
    }

    fn stopped(&self) -> bool {
        self.readings > 0 && !self.still_reading
    }
}

/// The closing line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Judgement {
    /// What it is worth.
    pub worth: Worth,
    /// Why, in plain words.
    pub because: String,
}

/// One row of the table.
struct Row {
    holds: fn(&Findings) -> bool,
    worth: Worth,
    because: fn(&Findings) -> String,
}

const fn row(holds: fn(&Findings) -> bool, worth: Worth, because: fn(&Findings) -> String) -> Row {
    Row { holds, worth, because }
}

use Trouble::{AdapterSilent, Loop, Modem, Noise, PortGone, Restarting, Talk, UnitSilent};
use Worth::{CannotTell, Good, GoodWithLimits, SendItBack};

#[rustfmt::skip]
const ROWS: &[Row] = &[
    // Whatever was read: a connection that breaks again and again.
    row(|f| f.cuts >= CUTS_MOST, SendItBack,
        |f| format!("the connection broke {} in this short time; if another cable does the same, it is the adapter", times(f.cuts))),

    // Nothing was read.
    row(|f| f.unread() && f.trouble == Some(AdapterSilent) && !f.heard, CannotTell,
        |_| "nothing came back at all; an adapter without supply is as silent as a broken one".to_owned()),
    row(|f| f.unread() && f.trouble == Some(AdapterSilent), SendItBack,
        |_| "it fell silent before anything was read".to_owned()),
    row(|f| f.unread() && f.trouble == Some(PortGone), CannotTell,
        |_| "the connection was not there long enough".to_owned()),
    row(|f| f.unread() && matches!(f.trouble, Some(Modem | Noise)), CannotTell,
        |_| "no adapter was heard at this port at this rate".to_owned()),
    row(|f| f.unread() && f.trouble == Some(Loop), CannotTell,
        |_| "an adapter without supply sends back what it is sent, and so does a bare cable".to_owned()),
    row(|f| f.unread() && f.first_lost > 0 && (f.party() == Some(Party::Adapter) || !f.set_up), SendItBack,
        |_| "it loses the first character of what it is sent".to_owned()),
    row(|f| f.unread() && f.trouble == Some(Talk) && f.named, SendItBack,
        |_| "it says who it is, but takes no setting".to_owned()),
    row(|f| f.unread() && f.trouble == Some(Talk), CannotTell,
        |_| "what answers does not say that it is an adapter".to_owned()),
    row(|f| f.unread() && f.trouble == Some(Restarting) && f.dips > 0, CannotTell,
        |_| "its supply dips, which is the vehicle's battery or a loose plug".to_owned()),
    row(|f| f.unread() && f.party() == Some(Party::Adapter), SendItBack,
        |f| f.trouble.map_or_else(String::new, plain)),
    row(|f| f.unread() && f.trouble.is_some(), CannotTell,
        |f| format!("{}, which says nothing of the adapter", f.trouble.map_or_else(String::new, plain))),
    row(|f| f.unread() && f.heard && !f.set_up, SendItBack,
        |_| "it was never ready in all this time".to_owned()),
    row(Findings::unread, CannotTell,
        |_| "the vehicle had not answered when the time was over".to_owned()),

    // It was read, but not at the end.
    row(|f| f.stopped() && f.trouble == Some(PortGone), CannotTell,
        |_| "the connection broke while it read; the plug may be loose".to_owned()),
    row(|f| f.stopped() && f.trouble == Some(UnitSilent), CannotTell,
        |_| "it read for a while, then no control unit answered this request any more; another vehicle shows whose fault that is".to_owned()),
    row(|f| f.stopped() && matches!(f.party(), Some(Party::Vehicle | Party::ControlUnit)), CannotTell,
        |f| format!("it read for a while, then: {}", f.trouble.map_or_else(String::new, plain))),
    row(|f| f.stopped() && f.dips > 0 && f.trouble == Some(Restarting), CannotTell,
        |_| "its supply dips, which is the vehicle's battery or a loose plug".to_owned()),
    // Only a search, the start of a bus or a control unit that wants more time keeps a request waiting for so long.
    row(|f| f.stopped() && f.trouble.is_none(), CannotTell,
        |_| "it read for a while, then it waited for the vehicle until the time was over".to_owned()),
    row(Findings::stopped, SendItBack,
        |f| format!("it read for a while, then: {}", f.trouble.map_or_else(String::new, plain))),

    // It was read to the end.
    row(|f| f.resets >= RESETS_MOST, SendItBack,
        |f| format!("it lost its settings {} in this short time", times(f.resets))),
    row(|f| f.share(f.lost.by_the_adapter) > LOST_MOST, SendItBack,
        |f| format!("it loses {} of what is asked", percent(f.share(f.lost.by_the_adapter)))),
    row(|f| f.lost_share() > LOST_MOST, CannotTell,
        |f| format!("{} of the requests were not answered, and not by the adapter's fault", percent(f.lost_share()))),
    row(|f| f.per_second < LEAST_PER_SECOND, SendItBack,
        |f| format!("it reads only {:.1} times a second, which is too slow for a check", f.per_second)),
    row(|f| LIMITS.iter().any(|limit| (limit.holds)(f)), GoodWithLimits,
        |f| LIMITS.iter().filter(|limit| (limit.holds)(f)).map(|limit| (limit.says)(f)).collect::<Vec<_>>().join("; ")),
    row(|_| true, Good,
        |f| format!("it reads {:.1} times a second and loses {}", f.per_second, match f.lost.all() {
            0 => "nothing".to_owned(),
            _ => percent(f.lost_share()),
        })),
];

/// Something to be known before the job.
struct Limit {
    holds: fn(&Findings) -> bool,
    says: fn(&Findings) -> String,
}

#[rustfmt::skip]
const LIMITS: &[Limit] = &[
    Limit { holds: |f| f.lost_share() > LOST_GOOD,
            says: |f| format!("{} of the requests bring nothing", percent(f.lost_share())) },
    Limit { holds: |f| f.per_second < WANTED_PER_SECOND,
            says: |f| format!("it reads only {:.1} times a second, so the verdict keeps a wider margin", f.per_second) },
    Limit { holds: |f| f.hole > HOLE,
            says: |f| format!("nothing was read for {} s, and so long there is no go", f.hole.as_secs()) },
    Limit { holds: |f| f.late > 0,
            says: |f| format!("it did not end a reply in time, {}", times(f.late)) },
    Limit { holds: |f| f.resets > 0,
            says: |f| format!("it lost its settings {}", times(f.resets)) },
    Limit { holds: |f| f.dips > 0,
            says: |f| format!("its supply dipped {}: look at the battery and the plug", times(f.dips)) },
    Limit { holds: |f| f.cuts > 0,
            says: |f| format!("the connection broke {}", times(f.cuts)) },
    Limit { holds: |f| f.first_lost > 0,
            says: |_| "it loses first characters of what it is sent, unless it is given time".to_owned() },
    Limit { holds: |f| f.nameless,
            says: |_| "it does not say which control unit answers, so it reads only where a single one does".to_owned() },
];

/// The decision.
pub fn judge(findings: &Findings) -> Judgement {
    // The last row always holds.
    let row = ROWS.iter().find(|row| (row.holds)(findings));
    row.map_or_else(
        || Judgement { worth: CannotTell, because: String::new() },
        |row| Judgement { worth: row.worth, because: (row.because)(findings) },
    )
}

/// What is wrong, to go on in the middle of a sentence.
fn plain(trouble: Trouble) -> String {
    let says = trouble.says().trim_end_matches('.');
    let mut letters = says.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

fn times(n: u64) -> String {
    match n {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        n => format!("{n} times"),
    }
}

fn percent(share: f64) -> String {
    match share * 100.0 {
        little if little < 1.0 => "less than 1 %".to_owned(),
        much => format!("{much:.0} %"),
    }
}

#[cfg(test)]
mod tests;
