//! A tiny program for tests of the stage and the technician: asks, decodes one byte, says go inside the band.
//!
//! It has none of the safety of the real one and stands for nothing but the calls.

use std::collections::VecDeque;
use std::time::Duration;

use events::{
    Advice, Body, Estimate, Event, JobResult, Outcome, Precondition, Refusal, Request, Seq, Sheet, Told, Utc,
    Verdict, Word,
};
use rehearsal::Program;
use units::{Celsius, Kelvins, Mono};

pub(crate) struct Fake {
    sheet: Sheet,
    out: VecDeque<Vec<u8>>,
    events: VecDeque<Event>,
    heard: Vec<u8>,
    script: Vec<String>,
    place: usize,
    asked_at: Option<Mono>,
    link: bool,
    verdict: Verdict,
    pub(crate) told: Vec<&'static str>,
    pub(crate) opened: usize,
    open: Vec<Precondition>,
    seq: u64,
    pub(crate) transcript: Vec<u8>,
    now: Mono,
}

const SETUP: usize = 7;

impl Fake {
    pub(crate) fn new(sheet: &Sheet) -> Self {
        let id = sheet.identifier.clone().unwrap_or_else(|| unreachable!("the tests use sheets with one"));
        let script = ["ATI", "ATE0", "ATS0", "ATH1", "ATSP6"].map(str::to_owned).into_iter();
        let script = script.chain([
            format!("ATSH{}", id.header),
            "ATST32".to_owned(),
            format!("{:02X}{:04X}", id.service, id.id),
        ]);
        let mut open = vec![Precondition::OnStands, Precondition::VehicleLevel, Precondition::ExhaustOutside];
        open.extend([Precondition::BrakeHeld, Precondition::SelectorCycled, Precondition::Filled]);
        if sheet.before.cooler_bypass {
            open.push(Precondition::CoolerBypass);
        }
        Self {
            sheet: sheet.clone(),
            out: VecDeque::new(),
            events: VecDeque::new(),
            heard: Vec::new(),
            script: script.collect(),
            place: 0,
            asked_at: None,
            link: false,
            verdict: Verdict::Wait,
            told: Vec::new(),
            opened: 0,
            open,
            seq: 0,
            transcript: Vec::new(),
            now: Mono::ZERO,
        }
    }

    fn emit(&mut self, body: Body) {
        self.seq += 1;
        self.events.push_back(Event { seq: Seq(self.seq), at: Utc::from_millis(0), mono_ms: self.now, body });
    }

    fn ask(&mut self, now: Mono) {
        let line = self.script.get(self.place).map_or("ATI", String::as_str);
        self.out.push_back(format!("{line}\r").into_bytes());
        self.asked_at = Some(now);
    }

    fn reply(&mut self, text: &str, now: Mono) {
        self.asked_at = None;
        if self.place < SETUP {
            self.place += 1;
        } else if let Some(id) = self.sheet.identifier.clone() {
            let mark = format!("62{:04X}", id.id);
            let hex: String = text.chars().filter(char::is_ascii_hexdigit).collect();
            if let Some(at) = hex.find(&mark) {
                let Some(raw) = hex.get(at + 6..at + 8).and_then(|raw| u8::from_str_radix(raw, 16).ok())
                else {
                    return;
                };
                self.judge(f64::from(raw) * id.scale + id.offset);
            }
        }
        self.now = now;
    }

    fn judge(&mut self, celsius: f64) {
        let [low, high] = self.sheet.check.band_c;
        self.emit(Body::Estimate(Estimate {
            celsius: Celsius::clamped(celsius),
            u: Kelvins::clamped(0.75),
            kelvins_per_minute: None,
            fluid: None,
        }));
        let verdict = if celsius > high {
            Verdict::TooHot
        } else if celsius >= low + 1.5 && celsius <= high - 1.5 && self.open.is_empty() {
            Verdict::Go
        } else {
            Verdict::Wait
        };
        self.set(verdict);
    }

    fn set(&mut self, verdict: Verdict) {
        if verdict != self.verdict {
            self.verdict = verdict;
            let body = Body::Verdict {
                verdict,
                reasons: vec![],
                open: self.open.clone(),
                celsius: None,
                u: None,
                opens_in: None,
                closes_in: None,
                read_again_in: None,
            };
            self.emit(body);
        }
    }

    fn outcome(&self) -> Outcome {
        let has = |word| self.told.contains(&word);
        if has("flowing") && has("trickle") && has("closed") { Outcome::Set } else { Outcome::NotSet }
    }
}

impl Program for Fake {
    fn link_opened(&mut self, now: Mono) {
        (self.link, self.place, self.heard) = (true, 0, Vec::new());
        self.opened += 1;
        self.ask(now);
    }

    fn link_closed(&mut self, now: Mono, _: &str) {
        self.now = now;
        self.link = false;
        self.asked_at = None;
        self.set(Verdict::Wait);
    }

    fn bytes(&mut self, bytes: &[u8], now: Mono) {
        self.transcript.extend(bytes);
        self.heard.extend(bytes.iter().filter(|b| **b != 0));
        while let Some(at) = self.heard.iter().position(|b| *b == b'>') {
            let reply: Vec<u8> = self.heard.drain(..=at).collect();
            self.reply(&String::from_utf8_lossy(&reply), now);
        }
    }

    fn tell(&mut self, told: &Told, now: Mono) -> Word {
        self.now = now;
        let id = told.id.clone();
        let word = told.request.word();
        let gated = matches!(told.request, Request::Flowing | Request::Trickle);
        if gated && self.verdict != Verdict::Go {
            return Word::Refused {
                id: Some(id),
                reason: Refusal::NotGo,
                says: Refusal::NotGo.says().to_owned(),
            };
        }
        match &told.request {
            Request::Start { job, people } => {
                let sheet = Box::new(self.sheet.clone());
                self.emit(Body::Job {
                    job: 1,
                    sheet,
                    recheck_of: None,
                    task: *job,
                    people: *people,
                    uptime: None,
                });
            }
            Request::Level { pitch_degrees, .. } if pitch_degrees.to_f64().abs() > 0.5 => {
                let reason = Refusal::NotLevel;
                return Word::Refused { id: Some(id), reason, says: reason.says().to_owned() };
            }
            Request::Confirm { what } => self.open.retain(|open| open != what),
            Request::Level { .. } => self.open.retain(|open| *open != Precondition::VehicleLevel),
            Request::Filled { .. } => self.open.retain(|open| *open != Precondition::Filled),
            Request::Done => {
                let outcome = self.outcome();
                self.emit(Body::Result(JobResult {
                    outcome,
                    level_error: None,
                    shortfalls: vec![],
                    closure: vec![],
                    add_millilitres: None,
                    recheck_of: None,
                    low_by_more_than_millilitres: None,
                    found_millilitres: None,
                    found_expanded_millilitres: None,
                    open: self.open.clone(),
                    drivable: None,
                    net_millilitres: None,
                    expanded_millilitres: None,
                    guessed: Box::default(),
                    guess_cost: None,
                    complaint: None,
                    untold: Vec::new(),
                    recheck_due: vec![],
                }));
            }
            _ => {}
        }
        self.told.push(word);
        Word::Accepted { id, seq: Seq(self.seq), advice: Advice::StayClear }
    }

    fn wake(&mut self, now: Mono) {
        self.now = now;
        if self.link {
            self.heard.clear();
            self.ask(now);
        }
    }

    fn poll_bytes(&mut self, _: Mono) -> Option<Vec<u8>> {
        self.out.pop_front()
    }

    fn poll_event(&mut self) -> Option<Event> {
        self.events.pop_front()
    }

    fn deadline(&self) -> Option<Mono> {
        let quiet = self.asked_at.map(|at| at.after(Duration::from_millis(1_500)));
        quiet.or(self.link.then(|| self.now.after(Duration::from_millis(300))))
    }
}
