//! The figures of a report for the next technician: level error, balance, readings, torques, the two jobs of a recheck.
//!
//! In: the record. Out: rows of text. Not here: what they mean (`say.rs`), the drawings (`plot.rs`).

use events::{Balance, LevelError, Sheet, Signal};
use units::{Millilitres, NewtonMetres};
use words::args;

use super::record::{Quality, Record};
use super::say::{Reader, Row};

impl Reader {
    /// An amount with its sign.
    pub fn signed(&self, value: Millilitres) -> String {
        self.speech.signed(value)
    }

    /// What the next technician needs at a glance.
    pub fn facts(&self, record: &Record) -> Vec<Row> {
        let mut rows: Vec<Row> = Vec::new();
        rows.extend(
            record.recheck_of.map(|first| (self.text("label-recheck"), self.comparison(first, record))),
        );
        let complaint = record.result.as_ref().and_then(|r| r.complaint.as_ref());
        if let Some(told) = complaint {
            let before = self.complaint(&told.before, told.leak_before);
            let after = self.complaint(&told.after, told.leak_after);
            rows.extend(before.map(|says| (self.text("label-told-before"), says)));
            rows.extend(after.map(|says| (self.text("label-told-after"), says)));
        }
        if let Some(level) = record.result.as_ref().and_then(|r| r.level_error.as_ref()) {
            rows.push((self.text("label-level-error"), self.level(level)));
        }
        if let Some(sheet) = &record.sheet {
            rows.push((self.text("label-band"), self.band(sheet)));
            rows.push((self.text("label-torques"), self.torques(sheet)));
            let hash = record.sheet_sha256.as_deref().map(short).unwrap_or_default();
            rows.push((self.text("label-data"), format!("{}, SHA-256 {hash}", sheet.name)));
        }
        if record.people {
            rows.push((self.text("label-link"), self.text("entry-all-by-people").to_owned()));
        } else if !record.link.is_empty() {
            rows.push((self.text("label-link"), record.link.clone()));
        }
        rows.push((self.text("label-readings"), self.quality(record)));
        rows
    }

    fn complaint(&self, symptoms: &[events::Symptom], leak: Option<events::LeakTold>) -> Option<String> {
        let mut says: Vec<String> = symptoms.iter().map(|s| self.speech.of(*s).to_owned()).collect();
        if let Some(leak) = leak {
            let place = leak.place.map_or(String::new(), |p| format!(" {}", self.speech.of(p)));
            let how = format!("{}{place}", self.speech.of(leak.how));
            says.push(self.pair(self.text("entry-leak"), &how));
        }
        (!says.is_empty()).then(|| says.join(" "))
    }

    /// The level error with how well it is known.
    pub fn level(&self, level: &LevelError) -> String {
        let height = level.millimetres;
        let sign = if height.to_f64() > 0.0 { "+" } else { "" };
        self.speech.with(
            "level-error-is",
            &args!(
                amount = self.signed(level.millilitres),
                within = self.ml(level.expanded_millilitres),
                height = format!("{sign}{}", self.speech.millimetres(height))
            ),
        )
    }

    /// The right temperature, and by what it is read.
    pub fn band(&self, sheet: &Sheet) -> String {
        let signal = self.text(match sheet.check.signal {
            Signal::Fluid => "name-fluid",
            Signal::Coolant => "name-coolant",
            Signal::Spot => "name-spot",
            Signal::Display => "name-display",
            Signal::Lamp => "name-lamp",
        });
        let (low, high) = (self.speech.celsius(sheet.check.low()), self.speech.celsius(sheet.check.high()));
        self.speech.with("band-by", &args!(low = low, high = high, signal = signal))
    }

    /// The torques of the plugs.
    pub fn torques(&self, sheet: &Sheet) -> String {
        let Some(torque) = &sheet.torque_nm else { return self.text("as-the-maker-says").to_owned() };
        let show = |name, value: Option<f64>| {
            value.map(|v| {
                let torque = self.speech.newton_metres(NewtonMetres::clamped(v));
                self.speech.with(name, &args!(torque = torque))
            })
        };
        let parts = [
            show("torque-pipe", torque.standpipe),
            show("torque-check-plug", torque.check_port),
            show("torque-fill-plug", torque.fill_port),
        ];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }

    /// A recheck beside the job it refers to.
    fn comparison(&self, first: u64, record: &Record) -> String {
        let job = self.speech.with("job-number", &args!(job = first.to_string()));
        let Some(c) = &record.comparison else {
            return format!("{job}. {}", self.text("recheck-not-comparable"));
        };
        let says = self.speech.with(
            "recheck-compared",
            &args!(
                left = self.signed(c.left_millilitres),
                found = self.signed(c.found_millilitres),
                change = self.signed(c.change_millilitres),
                within = self.ml(c.expanded_millilitres)
            ),
        );
        let judged = self.text(if c.agrees { "recheck-agrees" } else { "recheck-differs" });
        format!("{job}. {says} {judged}")
    }

    /// How good the readings were.
    fn quality(&self, record: &Record) -> String {
        let q = &record.quality;
        let with = |name, count: u32| self.speech.with(name, &args!(count = count));
        let seconds = |s: f64| format!("{s:.0}");
        let mut parts = if record.people {
            let mut parts = vec![with("readings-told", q.readings)];
            let apart = seconds(q.longest_pause_seconds);
            parts.extend((q.pauses > 0).then(|| self.speech.with("readings-apart", &args!(seconds = apart))));
            parts
        } else {
            let counted =
                self.speech.with("readings-read", &args!(count = q.readings, age = q.age_ms.to_string()));
            let longest = seconds(q.longest_pause_seconds);
            let pauses = (q.pauses > 0)
                .then(|| self.speech.with("readings-pauses", &args!(count = q.pauses, seconds = longest)));
            let losses = (q.losses > 0).then(|| with("readings-losses", q.losses));
            [Some(counted), pauses, losses].into_iter().flatten().collect()
        };
        parts.extend((q.restarts > 0).then(|| with("readings-restarts", q.restarts)));
        parts.extend(self.known_at_closing(q));
        parts.join(" ")
    }

    fn known_at_closing(&self, q: &Quality) -> Option<String> {
        q.u_at_closing
            .map(|u| self.speech.with("readings-known-at-closing", &args!(u = self.speech.kelvins(u))))
    }

    /// The amounts that were measured, those that are there.
    pub fn amounts(&self, balance: &Balance) -> Vec<(&'static str, Millilitres)> {
        let rows = [
            ("balance-drained", balance.drained_millilitres),
            ("balance-filled", balance.filled_millilitres),
            ("balance-ran-out", balance.ran_out_millilitres),
            ("balance-with-parts", balance.taken_out_millilitres),
            ("balance-spilled", balance.spilled_millilitres),
            ("balance-kept", balance.kept_millilitres),
        ];
        rows.into_iter().filter_map(|(name, value)| Some((self.text(name), value?))).collect()
    }

    /// What follows from the amounts.
    pub fn sums(&self, balance: &Balance) -> Vec<Row> {
        let at = self.speech.celsius(balance.reference_celsius);
        let expected = balance.expected_run_out_millilitres.map(|v| {
            let amount = self.ml(v);
            let says = self.speech.with("entry-at", &args!(what = amount, celsius = at));
            (self.text("balance-expected"), says)
        });
        let closure = balance.closure_millilitres.zip(balance.closure_u_millilitres).map(|(closure, u)| {
            let (amount, u) = (self.signed(closure), self.ml(u));
            (
                self.text("balance-closure"),
                self.speech.with("amount-and-uncertainty", &args!(amount = amount, u = u)),
            )
        });
        let fresh = balance.fresh_percent.map(|p| (self.text("balance-fresh"), format!("{p}\u{202f}%")));
        let waste = balance.waste_millilitres.map(|v| (self.text("balance-waste"), self.ml(v)));
        [expected, closure, fresh, waste].into_iter().flatten().collect()
    }
}

/// As much of a seal as a person compares.
pub fn short(seal: &str) -> &str {
    seal.get(..16).unwrap_or(seal)
}
