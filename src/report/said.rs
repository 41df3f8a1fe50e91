//! What was told in a job, line by line, and who did what, in the reader's language and units.
//!
//! In: requests and steps. Out: text. Not here: the rest of a report (`say.rs`).

use events::{EngineWord, Particular, Request, Role, Step, StepState};
use units::{Celsius, Millilitres};
use words::args;

use super::record::StepLine;
use super::say::Reader;

impl Reader {
    /// Who brought a step about.
    pub fn by(&self, step: &StepLine) -> &'static str {
        match (step.by, step.by_vehicle) {
            (Some(role), _) => self.role(role),
            (None, true) => self.text("who-vehicle"),
            (None, false) => self.text("who-person"),
        }
    }

    /// A seat.
    pub fn role(&self, role: Role) -> &'static str {
        match role {
            Role::Under => self.text("who-under"),
            Role::Inside => self.text("who-inside"),
        }
    }

    /// A step.
    pub fn step(&self, step: Step) -> &'static str {
        view::step_name(self.speech, step)
    }

    /// Where a step stands.
    pub fn state(&self, state: StepState) -> &'static str {
        self.text(match state {
            StepState::Open => "state-open",
            StepState::Started => "state-started",
            StepState::Done => "state-done",
            StepState::Failed => "state-failed",
            StepState::Undone => "state-undone",
        })
    }

    /// A particular's name.
    pub fn particular(&self, what: Particular) -> &'static str {
        self.text(match what {
            Particular::Odometer => "label-odometer",
            Particular::Technician => "label-technician",
            Particular::Workshop => "label-workshop",
            Particular::Fluid => "label-fluid",
            Particular::Batch => "label-batch",
            Particular::Cost => "label-cost",
        })
    }

    fn at(&self, what: String, celsius: Option<Celsius>) -> String {
        match celsius {
            Some(t) => self.speech.with("entry-at", &args!(what = what, celsius = self.speech.celsius(t))),
            None => what,
        }
    }

    fn amount(&self, name: &'static str, amount: Millilitres, celsius: Option<Celsius>) -> String {
        self.at(self.speech.with(name, &args!(amount = self.ml(amount))), celsius)
    }

    /// What was told.
    pub fn said(&self, request: &Request) -> String {
        match request {
            Request::Drained { millilitres, celsius } => {
                self.amount("amount-drained", *millilitres, *celsius)
            }
            Request::Filled { millilitres, celsius } => self.amount("amount-filled", *millilitres, *celsius),
            Request::RanOut { millilitres, celsius } => self.amount("amount-ran-out", *millilitres, *celsius),
            Request::Spilled { millilitres, of } => {
                let amount = self.amount("entry-spilled", *millilitres, None);
                format!("{amount} {}", self.speech.of(*of))
            }
            Request::TakenOut { part, millilitres, celsius } => {
                let amount =
                    millilitres.map_or_else(|| self.text("as-the-data-says").to_owned(), |v| self.ml(v));
                self.at(format!("{} {amount}", self.speech.of(*part)), *celsius)
            }
            Request::Kept { millilitres } => self.amount("entry-kept", *millilitres, None),
            _ => self.measured(request),
        }
    }

    /// What was read or measured.
    fn measured(&self, request: &Request) -> String {
        let pair = |label, value: &str| self.pair(self.text(label), value);
        let speech = &self.speech;
        match request {
            Request::Level { pitch_degrees, roll_degrees } => {
                let number =
                    |angle: &units::Degrees| speech.lang.number(&format!("{angle:+.2}°")).into_owned();
                speech.with("entry-level", &args!(pitch = number(pitch_degrees), roll = number(roll_degrees)))
            }
            Request::Corners {
                front_left_millimetres: fl,
                front_right_millimetres: fr,
                rear_left_millimetres: rl,
                rear_right_millimetres: rr,
                ..
            } => {
                let mm = |v: &units::Millimetres| speech.millimetres(*v);
                let (front, rear) = (format!("{}, {}", mm(fl), mm(fr)), format!("{}, {}", mm(rl), mm(rr)));
                speech.with("entry-corners", &args!(front = front, rear = rear))
            }
            Request::Spot { celsius, surface } => {
                format!("{} {}", speech.of(*surface), speech.celsius(*celsius))
            }
            Request::Display { celsius } => pair("head-display", &speech.celsius(*celsius)),
            Request::Air { celsius } => pair("entry-air", &speech.celsius(*celsius)),
            Request::Lamp { shows } => speech.of(*shows).to_owned(),
            Request::Engine { what, rpm } => {
                let engine = match what {
                    EngineWord::Idling => self.text("engine-idling"),
                    EngineWord::Stopped => self.text("engine-stopped"),
                };
                rpm.map_or(engine.to_owned(), |n| format!("{engine}, {n}\u{202f}1/min"))
            }
            Request::BelowEdge { millimetres } => {
                speech.with("entry-below-edge", &args!(depth = speech.millimetres(*millimetres)))
            }
            Request::Gauge { millimetres } => {
                speech.with("entry-gauge", &args!(depth = speech.millimetres(*millimetres)))
            }
            _ => self.answered(request),
        }
    }

    /// What was chosen, answered or written.
    fn answered(&self, request: &Request) -> String {
        let pair = |label, value: &str| self.pair(self.text(label), value);
        let speech = &self.speech;
        match request {
            Request::Confirm { what } => pair("entry-confirmed", self.short(*what)),
            Request::Shifted { position } => pair("entry-selector", position),
            Request::Vehicle { text } => pair("label-vehicle", text),
            Request::Particular { what, text } => self.pair(self.particular(*what), text),
            Request::Photo { name, .. } => pair("entry-photo", name),
            Request::Recheck { of } => pair("entry-recheck-of-job", &of.to_string()),
            Request::Sheet { name } => pair("label-data", name),
            Request::Candidate { service, identifier, header } => {
                pair("entry-identifier", &events::place(header, *service, *identifier))
            }
            Request::Leak { how } => pair("entry-leak", speech.of(*how)),
            Request::LeakAt { place } => pair("entry-leak", speech.of(*place)),
            Request::Symptom { what } => speech.of(*what).to_owned(),
            Request::FluidLooks { look } => pair("section-old-fluid", speech.of(*look)),
            Request::Alarm { what } => pair("entry-alarm", speech.of(*what)),
            Request::Abort { why } => pair("entry-ended-by-hand", why),
            Request::Note { text } => pair("entry-remark", text),
            other => self.text(plain(other)).to_owned(),
        }
    }
}

/// What has nothing in it: the sentence of its button.
const fn plain(request: &Request) -> &'static str {
    match request {
        Request::Flowing => "offer-fluid-flows-from-the-check-port",
        Request::NothingFlows => "offer-nothing-runs-out",
        Request::Trickle => "offer-it-is-a-thin-thread-now",
        Request::Drips => "offer-it-only-drips",
        Request::AtEdge => "offer-it-stands-at-the-lower-edge",
        Request::NoDrive => "offer-no-drive-is-felt-in-gear",
        Request::FluidWrong => "offer-it-differs-not-this-fluid",
        Request::Closed => "offer-check-port-closed-hand-tight",
        Request::Torqued => "offer-plugs-tightened-to-the-torques",
        Request::TestDriven => "offer-driven-no-leak-seen",
        Request::Done => "offer-write-the-record",
        Request::Undo => "entry-taken-back",
        _ => "offer-start-the-job",
    }
}
