//! What people tell: whether it is accepted, and what it makes happen.
//!
//! In: what is told, the time. Out: events, and the answer. Not here: whether it fits the job (`job`), what is told by the adapter
//! (`heard.rs`).

use events::{
    Body, EngineWord, LinkChange, Measure, Quantity, Reading, Refusal, Request, Signal, Told, Word,
};

use super::{Bay, Moment};

/// A remark may have so many characters.
/// Source: docs/interface.md; own choice there: three rows of a report, and a workshop's day of them is some kilobytes.
const TEXT_LIMIT: usize = 200;

impl Bay {
    /// Something told. `accepted` names the event that must be durable before the answer is given.
    pub fn tell(&mut self, told: &Told, now: Moment) -> Word {
        if let Some(seq) = self.job.seq_of(told).filter(|_| self.still_holds(told)) {
            // Told before, over a connection that broke: the answer of then, and nothing done twice.
            let advice = self.shown.advice().advice;
            return Word::Accepted { id: told.id.clone(), seq, advice };
        }
        match self.weigh(told, now) {
            Ok(bodies) => {
                let mut told_at = self.log.next();
                for body in bodies {
                    let found = match &body {
                        Body::Found(found) if found.takes_over => Some(found.identifier.clone()),
                        _ => None,
                    };
                    let is_told = matches!(body, Body::Told(_));
                    let seq = self.emit(body, now);
                    if is_told {
                        told_at = seq;
                    }
                    if let Some(identifier) = found {
                        self.plan.take_identifier(&identifier);
                        self.read_by_the_sheet();
                        self.lost(
                            "the check goes by the identifier from now on; the adapter is set up anew",
                            now,
                        );
                        self.watch.reopen();
                    }
                }
                let seq = told_at;
                self.settle(now);
                let advice = self.shown.advice().advice;
                Word::Accepted { id: told.id.clone(), seq, advice }
            }
            Err(reason) => {
                if let Some(kept) = self.job.refused(told, reason) {
                    self.emit(kept, now);
                    self.settle(now);
                }
                Word::Refused { id: Some(told.id.clone()), reason, says: reason.says().to_owned() }
            }
        }
    }

    /// Whether what was told before is still so: the sheet that was chosen is not, after a restart.
    fn still_holds(&self, told: &Told) -> bool {
        let Request::Sheet { name } = &told.request else { return true };
        self.job.is_running() || self.plan.sheet().name == *name
    }

    fn weigh(&mut self, told: &Told, now: Moment) -> Result<Vec<Body>, Refusal> {
        use Request::{
            Abort, Air, Candidate, Display, Engine, Filled, Lamp, Note, Recheck, Sheet as Choose, Spot, Start,
        };
        match &told.request {
            Abort { why: text } | Note { text } if text.chars().count() > TEXT_LIMIT => {
                return Err(Refusal::TooLong);
            }
            Start { .. } | Recheck { .. } if self.plan.shown().is_none() => return Err(Refusal::NoSheet),
            Choose { name } => return self.choose(told, name, now),
            Candidate { service, identifier, header } => {
                let (service, id, header) = (*service, *identifier, header.clone());
                return self.confirm(told, service, id, &header, now);
            }
            // Without a job it is the search alone that it is for.
            Spot { celsius, surface } if self.finder.is_some() && !self.job.is_running() => {
                job::thermometer(*celsius, *surface)?;
                return Ok(vec![Body::Told(told.clone()), typed(Measure::Spot(*celsius, *surface))]);
            }
            _ => {}
        }
        let shown = self.known.reading(Quantity::AmbientAirTemperature).and_then(|r| match r.measure {
            Measure::AmbientAir(celsius) => Some(celsius),
            _ => None,
        });
        let sheet = self.plan.for_job(shown, now.mono);
        let mut bodies = self.job.decide(told, now.mono, now.utc, &sheet, &self.now)?;
        match told.request {
            // The number is the journal's to give.
            Start { .. } | Recheck { .. } => {
                self.plan.take_band(sheet);
                // What the last job's gate had against the sensor is not held against this vehicle.
                self.vehicle.codes.forget();
                self.new_gate();
                let number = self.log.new_job();
                for body in &mut bodies {
                    if let Body::Job { job, uptime, .. } = body {
                        *job = number;
                        *uptime = self.machine.as_ref().and_then(|machine| machine.uptime(now.mono));
                    }
                }
                // The adapter may have been plugged in before the job began.
                let vin = self.vehicle.vin().map(str::to_owned);
                bodies.extend(vin.map(|vin| Body::Link(LinkChange::Vehicle { vin })));
                // The job's own record says who its words are from.
                bodies.extend(self.plan.is_by_people().then_some(Body::Link(LinkChange::People)));
            }
            Air { celsius } => match self.job.sheet_for_air(celsius) {
                Some(sheet) => {
                    // The engine has not run yet: the gate has nothing to forget.
                    self.plan.take_band(sheet);
                    self.new_gate();
                }
                None => self.plan.air_told(celsius, now.mono),
            },
            Engine { what, .. } => self.gate.engine_told(what == EngineWord::Idling, now.mono),
            Filled { .. } => self.gate.fluid_added(now.mono),
            Spot { celsius, surface } => bodies.push(typed(Measure::Spot(celsius, surface))),
            Display { celsius } => bodies.push(typed(Measure::Display(celsius))),
            Lamp { shows } => bodies.push(typed(Measure::Lamp(shows))),
            _ => {}
        }
        Ok(bodies)
    }

    /// A person says which identifier is the fluid's. A sheet that is gated by a thermometer goes by it from now on, and the job that
    /// runs with it.
    fn confirm(
        &mut self,
        told: &Told,
        service: u8,
        id: u16,
        header: &str,
        now: Moment,
    ) -> Result<Vec<Body>, Refusal> {
        let finder = self.finder.as_mut().ok_or(Refusal::NotSearching)?;
        let takes_over = self.plan.shown().is_some_and(|sheet| sheet.check.signal == Signal::Spot);
        let found = finder.confirm((service, id, header), takes_over, now.mono)?;
        Ok(vec![Body::Told(told.clone()), Body::Found(found)])
    }
}

/// A reading that a person told.
const fn typed(measure: Measure) -> Body {
    Body::Reading(Reading { measure, step: None, from: None, age_ms: 0 })
}
