//! What a report says to its two readers, in their language and units.
//!
//! In: the record. Out: sentences and rows. Page and text are built of the same ones, so that they cannot differ. Not here:
//! where they stand (`html.rs`, `md.rs`), what was told, line by line (`said.rs`), amounts and budget (`figures.rs`).

use events::{Drivable, Meaning, Outcome, Particular, Request, Shortfall, Task, Utc};
use units::Millilitres;
use words::{Speech, args};

use super::record::{Record, Trouble, Went};
use super::when::Times;

/// Who reads, and how: language, units, zone.
#[derive(Debug, Clone)]
pub struct Reader {
    /// In which language and units.
    pub speech: Speech,
    /// In which zone.
    pub times: Times,
}

/// One question of the customer, and its answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// What is asked.
    pub question: &'static str,
    /// Yes or no, where it is that sort of question.
    pub short: Option<&'static str>,
    /// The whole answer.
    pub says: String,
}

/// A label and what stands behind it.
pub type Row = (&'static str, String);

impl Reader {
    /// A message without variables.
    pub fn text(&self, name: &'static str) -> &'static str {
        self.speech.text(name)
    }

    /// An amount.
    pub fn ml(&self, value: Millilitres) -> String {
        self.speech.millilitres(value)
    }

    /// What a row is called, and what it says, in one line.
    pub fn pair(&self, label: &str, value: &str) -> String {
        self.speech.with("label-and-value", &args!(label = label.to_owned(), value = value.to_owned()))
    }

    /// The time of day of something in this job; with its zone where the clocks are changed within the job.
    pub fn clock(&self, record: &Record, at: Utc) -> String {
        let clock = self.times.clock(at);
        match self.times.changes(record.started, record.ended.unwrap_or(record.started)) {
            true => format!("{clock} {}", self.times.zone(at)),
            false => clock,
        }
    }

    /// What the report is called.
    pub fn title(&self, record: &Record) -> String {
        let day = self.times.day(record.started, self.speech.lang);
        self.speech.with("report-of-job", &args!(job = record.job.to_string(), day = day))
    }

    /// The one sentence of the result.
    pub fn headline(&self, record: &Record) -> String {
        let lang = self.speech.lang;
        record
            .result
            .as_ref()
            .map_or_else(|| self.text("job-not-ended").to_owned(), |r| r.headline(lang, |v| self.ml(v)))
    }

    /// What the technician does next.
    pub fn next(&self, record: &Record) -> String {
        let lang = self.speech.lang;
        record.result.as_ref().map_or(String::new(), |r| r.next(lang, |v| self.ml(v)))
    }

    /// The customer's questions, answered.
    pub fn answers(&self, record: &Record) -> Vec<Answer> {
        let answer = |question, short: Option<&'static str>, says| Answer {
            question: self.text(question),
            short: short.map(|name| self.text(name)),
            says,
        };
        let right = record.result.as_ref().map(|r| match r.outcome {
            Outcome::Set | Outcome::Checked => "answer-yes",
            Outcome::SetUnsure => "answer-probably",
            Outcome::SetLow | Outcome::SetHigh | Outcome::NotSet => "answer-no",
        });
        let (drive, may) = self.may_i_drive(record);
        let mut all = vec![
            answer("what-was-done", None, self.done(record)),
            answer("is-it-right", right, self.headline(record)),
            answer("may-i-drive", drive, may),
            answer("when-to-come-again", None, self.again(record)),
        ];
        let cost = record.particulars.get(&Particular::Cost);
        all.extend(cost.map(|cost| answer("what-it-costs", None, cost.clone())));
        all
    }

    fn may_i_drive(&self, record: &Record) -> (Option<&'static str>, String) {
        let Some(result) = &record.result else {
            return (Some("answer-no"), self.text("drive-not-before-the-end").to_owned());
        };
        let Some(drivable) = result.drivable else {
            return (None, self.text("drive-not-said").to_owned());
        };
        let short = match drivable {
            Drivable::Yes => "answer-yes",
            Drivable::WorkshopOnly | Drivable::No => "answer-no",
        };
        // Until a native speaker has checked the language, English stands beside it: somebody's safety hangs on it.
        (Some(short), self.speech.caution(drivable).into_owned())
    }

    /// What was done to the fluid, as far as it was told.
    fn done(&self, record: &Record) -> String {
        let what = match (record.recheck_of, record.task) {
            (Some(first), _) => self.speech.with("done-checked-again", &args!(job = first.to_string())),
            (None, Task::Check) => self.text("done-checked").to_owned(),
            (None, Task::Change) => self.changed(record),
        };
        let fresh = record.balance.as_ref().and_then(|b| b.fresh_percent);
        let fresh = fresh.map(|percent| self.speech.with("done-fresh-share", &args!(percent = percent)));
        [Some(what), fresh].into_iter().flatten().collect::<Vec<_>>().join(" ")
    }

    fn changed(&self, record: &Record) -> String {
        let balance = record.balance.as_ref();
        let out = balance.and_then(|b| b.drained_millilitres).map(|v| self.ml(v));
        let filled = balance.and_then(|b| b.filled_millilitres).map(|v| self.ml(v));
        match (out, filled) {
            (Some(out), Some(filled)) => {
                self.speech.with("done-changed", &args!(drained = out, filled = filled))
            }
            (Some(out), None) => self.speech.with("done-only-drained", &args!(drained = out)),
            (None, Some(filled)) => self.speech.with("done-only-filled", &args!(filled = filled)),
            (None, None) => self.text("done-nothing-entered").to_owned(),
        }
    }

    fn again(&self, record: &Record) -> String {
        let Some(result) = &record.result else { return self.text("job-not-ended").to_owned() };
        if !result.outcome.is_right() {
            return self.text("again-not-right").to_owned();
        }
        if result.shortfalls.contains(&Shortfall::LeakSeen) {
            return self.speech.text("mend-leak-first").to_owned();
        }
        let days: Vec<String> =
            result.recheck_due.iter().map(|at| self.times.day(*at, self.speech.lang)).collect();
        let days = match days.as_slice() {
            [] => return self.text("again-no-day").to_owned(),
            [one] => one.clone(),
            [days @ .., last] => {
                self.speech.with("days-and", &args!(days = days.join(", "), last = last.clone()))
            }
        };
        self.speech.with("again-on", &args!(days = days))
    }

    /// What else a customer should know: what the fluid tells of the transmission, the codes, what is missing.
    pub fn to_know(&self, record: &Record) -> Vec<String> {
        let means = record.result.iter().flat_map(|r| r.means());
        let mut all: Vec<String> = means
            .map(|meaning| match meaning {
                Meaning::OtherCause => "customer-other-cause",
                Meaning::DrivenLow => "customer-driven-low",
                Meaning::AskHistory => "customer-ask-history",
                Meaning::FilledWrong => "customer-filled-wrong",
                Meaning::Worn => "customer-worn",
                Meaning::WaterIn => "customer-water-in",
            })
            .map(|name| self.text(name).to_owned())
            .collect();
        if !record.codes.is_empty() {
            let codes: Vec<&str> = record.codes.iter().map(|c| c.code.as_str()).collect();
            all.push(self.speech.with("customer-codes", &args!(codes = codes.join(", "))));
        }
        let Some(result) = &record.result else { return all };
        all.extend(self.not_confirmed(record));
        all.extend((!result.guessed.is_empty()).then(|| self.text("customer-guessed").to_owned()));
        all
    }

    /// Which vehicle, who, when, which fluid. What is `None` nobody told: a line is left to write on.
    pub fn identity(&self, record: &Record) -> Vec<(&'static str, Option<String>)> {
        let told = |what| record.particulars.get(&what).cloned();
        let lang = self.speech.lang;
        let when = match record.ended {
            Some(to) => self.times.span(record.started, to, lang),
            None => self.times.since(record.started, lang),
        };
        let kind = record.sheet.as_ref().map(|s| s.fluid.kind.clone());
        vec![
            (self.text("label-vehicle"), record.vehicle.clone()),
            (self.text("label-vin"), record.vin.clone()),
            (self.text("label-odometer"), told(Particular::Odometer)),
            (self.text("label-date"), Some(when)),
            (self.text("label-workshop"), told(Particular::Workshop)),
            (self.text("label-technician"), told(Particular::Technician)),
            (self.text("label-fluid"), told(Particular::Fluid).or(kind)),
            (self.text("label-batch"), told(Particular::Batch)),
        ]
    }

    /// What was wrong and what to do, for the technician; empty where nothing was.
    pub fn wrong(&self, record: &Record) -> Vec<String> {
        let Some(result) = &record.result else { return Vec::new() };
        let shortfalls = result.shortfalls.iter().map(|s| self.speech.of(*s).to_owned());
        let causes = result.closure.iter().map(|c| self.speech.of(*c).to_owned());
        // Their sentences say that it is so.
        let open: Vec<&str> = result.open.iter().map(|p| self.short(*p)).collect();
        let open = (!open.is_empty()).then(|| self.pair(self.text("label-not-confirmed"), &open.join(", ")));
        shortfalls.chain(causes).chain(open).collect()
    }

    /// What the answers of the vehicle's trouble mean, for the technician.
    pub fn means(&self, record: &Record) -> Vec<&'static str> {
        record.result.iter().flat_map(|r| r.means()).map(|m| self.speech.of(*m)).collect()
    }

    /// What hands should have confirmed and nobody told, and what of the vehicle data was guessed.
    pub fn untold(&self, record: &Record) -> Vec<String> {
        let Some(result) = &record.result else { return Vec::new() };
        let mut all: Vec<String> = self.not_confirmed(record).into_iter().collect();
        if !result.guessed.is_empty() {
            all.push(self.pair(self.text("label-guessed"), &result.guessed.join(", ")));
            all.extend(self.guess_cost(record));
        }
        all
    }

    fn not_confirmed(&self, record: &Record) -> Option<String> {
        let untold = &record.result.as_ref()?.untold;
        let names: Vec<&str> = untold.iter().map(|p| self.short(*p)).collect();
        (!names.is_empty()).then(|| self.pair(self.text("label-not-confirmed"), &names.join(", ")))
    }

    /// What a confirmation is called.
    pub fn short(&self, what: events::Precondition) -> &'static str {
        self.speech.lang.also(what, "short", what.short())
    }

    fn guess_cost(&self, record: &Record) -> Option<String> {
        let result = record.result.as_ref()?;
        if let Some((error, cost)) = result.level_error.as_ref().zip(result.guess_cost.as_ref()) {
            let most = cost.most.as_deref().zip(cost.most_millilitres);
            return Some(self.guesses(error.expanded_millilitres, cost.without_millilitres, most));
        }
        let worth = job::worth(record.sheet.as_ref()?)?;
        let ml = Millilitres::clamped;
        let most = worth.most().map(|most| (most.key, ml(most.without_ml)));
        most.map(|most| self.guesses(ml(worth.expanded_ml), ml(worth.known_ml), Some(most)))
    }

    fn guesses(&self, with: Millilitres, without: Millilitres, most: Option<(&str, Millilitres)>) -> String {
        let (with, without) = (self.ml(with), self.ml(without));
        let cost = self.speech.with("guesses-cost", &args!(with = with, without = without));
        let most = most.map(|(key, then)| {
            self.speech.with("guess-that-helps-most", &args!(what = key.to_owned(), within = self.ml(then)))
        });
        [Some(cost), most].into_iter().flatten().collect::<Vec<_>>().join(" ")
    }

    /// What went wrong on the way.
    pub fn trouble(&self, trouble: &Trouble) -> String {
        let with = |says: &str, detail: &str| match detail {
            "" => says.to_owned(),
            detail => format!("{says} {detail}"),
        };
        match &trouble.of {
            Went::Fault(fault, detail) => with(self.speech.of(*fault), detail),
            Went::Lost(detail) => with(self.speech.of(events::Trouble::PortGone), detail),
            Went::Silent(detail) => with(self.speech.of(events::Trouble::VehicleSilent), detail),
            Went::Unread(seq, why) => {
                self.speech.with("doubt-unread", &args!(event = seq.0.to_string(), why = why.clone()))
            }
            Went::Changed(first, last) => self
                .speech
                .with("doubt-changed", &args!(first = first.0.to_string(), last = last.0.to_string())),
        }
    }

    /// Which events it rests on, and in which zone its times are.
    pub fn range(&self, record: &Record) -> String {
        let (first, last) = (record.events.0.0.to_string(), record.events.1.0.to_string());
        let zone = self.times.zone(record.started);
        self.speech.with("journal-range", &args!(first = first, last = last, zone = zone))
    }

    /// The fault codes, before the work and after it began.
    pub fn codes(&self, record: &Record) -> Vec<Row> {
        if record.people {
            return vec![(self.text("codes-before"), self.text("codes-nobody-read").to_owned())];
        }
        let of = |before: bool| {
            let told = record.codes.iter().filter(|c| c.before_the_work == before);
            let named: Vec<String> = told
                .map(|c| c.from.as_ref().map_or(c.code.clone(), |from| format!("{} ({from})", c.code)))
                .collect();
            if named.is_empty() { self.text("codes-none-told").to_owned() } else { named.join(", ") }
        };
        vec![(self.text("codes-before"), of(true)), (self.text("codes-after"), of(false))]
    }

    /// How the old fluid looked, as it was told.
    pub fn old_fluid(&self, record: &Record) -> String {
        let complaint = record.result.as_ref().and_then(|r| r.complaint.as_ref());
        let told = || {
            record.told.iter().filter_map(|t| match &t.request {
                Request::FluidLooks { look } => Some(*look),
                _ => None,
            })
        };
        let looks = complaint.map_or_else(|| told().collect(), |c| c.fluid.clone());
        if looks.is_empty() {
            return self.text("old-fluid-not-entered").to_owned();
        }
        looks.iter().map(|look| self.speech.of(*look)).collect::<Vec<_>>().join(" ")
    }
}
