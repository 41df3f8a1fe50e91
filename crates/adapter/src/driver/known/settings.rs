//! The settings of the adapter: the table of the steps that make them, and what is believed of them.
//!
//! In: what each step came to, the form of replies. Out: what is on, off or stuck; which step is left out. No setting is
//! trusted for its `OK`: flags are verified by the form of what follows.
//! Not here: who walks the table (`phase/setup.rs`). Method: section 4 of the dialect reference.

use std::time::Duration;

use super::address::WAIT;
use crate::codec::{Echo, Reply};
use crate::command::{Adaptive, Setup, Switch};
use crate::driver::text;
use crate::quirk::Quirk;

/// What a step is for, which decides what its reply means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// The banner is due.
    Restart,
    /// `OK` is due; the quirk if it is refused.
    Setting(Option<Quirk>),
    /// A text is due, or `?`; asked once per link.
    Question,
    /// Only after a fault of the adapter's own, or when everything is tried out.
    AfterFault,
    /// Asked once per adapter, when everything is tried out.
    Probe,
}

/// The steps, in their order.
#[rustfmt::skip]
pub(crate) const STEPS: &[(Setup, Kind)] = &[
    (Setup::WarmStart,                          Kind::Restart),
    (Setup::Echo(Switch::Off),                  Kind::Setting(None)),
    (Setup::LineFeeds(Switch::Off),             Kind::Setting(None)),
    (Setup::Spaces(Switch::Off),                Kind::Setting(None)),
    (Setup::Headers(Switch::On),                Kind::Setting(None)),
    (Setup::MemoryOff,                          Kind::Setting(None)),
    (Setup::AdaptiveTiming(Adaptive::Careful),  Kind::Setting(Some(Quirk::NoAt))),
    (Setup::Timeout(WAIT),                      Kind::Setting(None)),
    (Setup::ForgetEvents,                       Kind::AfterFault),
    (Setup::Description,                        Kind::Question),
    (Setup::FamilyIdentify,                     Kind::Question),
    (Setup::ProbeNonsense,                      Kind::Question),
    (Setup::ProbeKeyWords,                      Kind::Probe),
    (Setup::ProbeSilent,                        Kind::Probe),
    (Setup::ProbeActivity,                      Kind::Probe),
    (Setup::ProbeMultiplier,                    Kind::Probe),
    (Setup::Voltage,                            Kind::Question),
    (Setup::CanFormatting(Switch::On),          Kind::Setting(None)),
    (Setup::CanFlowControl(Switch::On),         Kind::Setting(None)),
];

/// So many time-outs, and a step is left out; headers, without which only one control unit can be read, are given more.
/// Own choice: each time-out costs a second and more of the set-up; once is a lost byte.
const MOST: u8 = 2;
const MOST_FOR_HEADERS: u8 = 5;
/// Above this a question to the adapter itself is slow.
/// Own choice: over radio it takes 21 to 31 ms in public logs, on wires less; people should hear of twice that.
const SLOW: Duration = Duration::from_millis(60);

/// What is believed of the adapter's settings.
#[derive(Debug, Default)]
pub(crate) struct Settings {
    echo: Flag,
    line_feeds: Flag,
    spaces: Flag,
    /// Time-outs of each step, and whether the present one was already repeated.
    missed: [u8; STEPS.len()],
    pub(crate) repeated: bool,
    /// Whether the questions were asked on this link.
    pub(crate) asked: bool,
    /// It begins with a reset, not with a warm start: something is set that only this clears.
    pub(crate) reset_first: bool,
    /// How many settings were accepted, and how long that took in all.
    accepted: u32,
    took: Duration,
}

/// A switch that was turned off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Flag {
    /// Not yet turned.
    #[default]
    On,
    /// Turned off; what follows shows whether it worked.
    Off,
    /// Turned off without effect.
    Stuck,
}

/// How fast an adapter takes its settings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Taken {
    Quickly,
    Slowly,
}

impl Settings {
    /// Everything is back to its default.
    pub(crate) fn restarted(&mut self) {
        (self.echo, self.line_feeds, self.spaces) = (Flag::On, Flag::On, Flag::On);
        (self.accepted, self.took) = (0, Duration::ZERO);
    }

    /// Whether a set-up was completed on this link.
    pub(crate) const fn is_known(&self) -> bool {
        self.asked
    }

    pub(crate) fn missed(&mut self, step: usize) {
        if let Some(count) = self.missed.get_mut(step) {
            *count = count.saturating_add(1);
        }
    }

    /// Steps that were left out are tried once more.
    pub(crate) fn hope_again(&mut self) {
        self.missed = Default::default();
    }

    /// A step that twice drew no reply is left out; headers are asked for longer.
    pub(crate) fn is_hopeless(&self, step: usize) -> bool {
        let needed = STEPS.get(step).is_some_and(|(setup, _)| *setup == Setup::Headers(Switch::On));
        let most = if needed { MOST_FOR_HEADERS } else { MOST };
        self.missed.get(step).is_some_and(|count| *count >= most)
    }

    /// Whether spaces come although they were turned off.
    pub(crate) fn spaces_are_stuck(&self) -> bool {
        self.spaces == Flag::Stuck
    }

    /// How the adapter took its settings; `None` if it accepted none of them.
    pub(crate) fn taken(&self) -> Option<Taken> {
        let mean = self.took.checked_div(self.accepted)?;
        Some(if mean > SLOW { Taken::Slowly } else { Taken::Quickly })
    }

    /// Which form of `reply` contradicts a switch that was off before; `None` if none does.
    pub(crate) fn form_lost(&self, reply: &Reply, echo: Echo) -> Option<&'static str> {
        if self.echo == Flag::Off && echo == Echo::Seen {
            Some("requests are typed back")
        } else if self.spaces == Flag::Off && text::is_spaced(reply) {
            Some("spaces in the data")
        } else if self.line_feeds == Flag::Off && reply.text.contains(&b'\n') {
            Some("line feeds")
        } else {
            None
        }
    }

    /// The form of `reply` is how this adapter is: nothing follows from it any more.
    pub(crate) fn accept_form(&mut self, reply: &Reply, echo: Echo) -> Option<Quirk> {
        if self.echo == Flag::Off && echo == Echo::Seen {
            self.echo = Flag::Stuck;
            return Some(Quirk::EchoStuck);
        }
        if self.spaces == Flag::Off && text::is_spaced(reply) {
            self.spaces = Flag::Stuck;
            return Some(Quirk::SpacesStuck);
        }
        if self.line_feeds == Flag::Off && reply.text.contains(&b'\n') {
            self.line_feeds = Flag::Stuck;
            return Some(Quirk::LfStuck);
        }
        None
    }

    pub(crate) fn accepted(&mut self, setup: Setup, took: Duration) {
        self.accepted += 1;
        self.took += took;
        self.turned_off(setup);
    }

    /// Accepted or refused: what follows shows whether it is off.
    pub(crate) fn turned_off(&mut self, setup: Setup) {
        match setup {
            Setup::Echo(_) => self.echo = Flag::Off,
            Setup::LineFeeds(_) => self.line_feeds = Flag::Off,
            Setup::Spaces(_) => self.spaces = Flag::Off,
            _ => {}
        }
    }
}
