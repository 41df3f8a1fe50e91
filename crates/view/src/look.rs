//! The look: what a seat sees of a [`Fold`] at one moment.
//!
//! In: what was folded, the time, the seat, the units. Out: a [`View`], put together from the modules beside this one.
//! A reading that is too old and a daemon that says nothing are found here, because only the time tells them.

use core::time::Duration;
use std::borrow::Cow;

use events::{
    Advice, Balance, Bearing, Caution, Estimate, Forecast, Precondition, Quantity, Reason, Rim, Role, Signal,
    Step, Trouble, Verdict,
};
use units::Mono;
use words::{Speech, args};

use crate::cue::Cue;
use crate::find::Finding;
use crate::fold::{BayState, Fold, taken_back};
use crate::offer::{self, Ground, Offer};
use crate::rounds::Rounds;
use crate::scale::Scale;
use crate::seat::{self, Seat};
use crate::silence;
use crate::view::{Clock, Surface, View};
use crate::why::{self, Near, interval, later};

/// Who looks, and when.
#[derive(Debug, Clone, Copy)]
pub struct Look {
    /// By the front end's own clock, the one that [`Fold::hear`] was given.
    pub now: Mono,
    /// From where.
    pub seat: Seat,
    /// In which language and units.
    pub speech: Speech,
}

/// A verdict is doubted when the last reading from a control unit is older than this.
/// Own choice: a second more than the daemon's own limit (docs/gate.md), which acts first wherever the daemon still
/// does.
const STALE: Duration = Duration::from_secs(6);
/// `go` is doubted when the daemon says nothing at all for so long.
/// Own choice: while it reads, it says something twice a second; five are missing then.
const SILENT: Duration = Duration::from_millis(2_500);
/// What was told can be taken back on the screen for so long.
/// Own choice: a slip is seen at once; later it would undo what somebody has acted on.
const UNDO: Duration = Duration::from_secs(60);
/// The window is near.
/// Own choice: time to put gloves on and go below, or to come to an end.
const NEAR_S: f64 = 60.0;
/// The window is about to close.
/// Own choice: a plug is put back and turned in within that.
const LAST_S: f64 = 20.0;

impl Fold {
    /// What is to be seen.
    pub fn look(&self, look: &Look) -> View {
        match &self.state {
            Some(state) if self.connected => state.look(look, self),
            _ => self.nobody(look),
        }
    }

    /// No daemon: whatever was known does not count.
    fn nobody(&self, look: &Look) -> View {
        let silent = look.now.since(self.heard).as_secs();
        let port_open = self.state.as_ref().is_some_and(|s| s.known.port_open());
        let now = match (look.seat, port_open) {
            (Seat::Under, true) => "close-port-nothing-known",
            (Seat::Under, false) => "keep-port-closed-nothing-known",
            (Seat::Inside, _) => "leave-engine-nothing-known",
        };
        let speech = look.speech;
        View {
            surface: Surface::NoReading,
            word: Surface::NoReading.word(speech.lang),
            now: speech.text(now).to_owned(),
            next: None,
            clock: Some(Clock {
                text: format!("{silent}\u{202f}s"),
                what: speech.text("without-the-daemon"),
            }),
            why: speech.text("daemon-does-not-answer").to_owned(),
            scale: self.state.as_ref().and_then(|s| s.empty_scale()),
            place: self.place(speech),
            link: speech.with("no-daemon-for", &args!(seconds = silent.to_string())),
            step: None,
            open: Vec::new(),
            balance: None,
            find: None,
            cautions: Vec::new(),
            offers: Vec::new(),
            undo: None,
            rounds: None,
            cue: self.state.as_ref().is_some_and(BayState::running).then_some(Cue::NoReading),
            job: None,
            seq: self.seq.0,
        }
    }

    fn place(&self, speech: Speech) -> String {
        let mut parts = vec![self.bay.clone()];
        if let Some(state) = &self.state {
            parts.extend(state.known.sheet.as_ref().map(|s| s.name.clone()));
            parts.extend(
                state.known.job.as_ref().map(|j| speech.with("job-number", &args!(job = j.job.to_string()))),
            );
        }
        parts.retain(|p| !p.is_empty());
        parts.join(" · ")
    }
}

impl BayState {
    fn running(&self) -> bool {
        self.known.running().is_some()
    }

    fn signal(&self) -> Option<Signal> {
        self.known.sheet.as_ref().map(|s| s.check.signal)
    }

    /// The signal is told by a person.
    fn is_typed(&self) -> bool {
        self.signal().is_some_and(Signal::is_typed)
    }

    /// How old the reading is that everything is gated on.
    fn age(&self, now: Mono) -> Option<Duration> {
        let quantity = self.signal()?.quantity();
        self.read.get(&quantity).map(|at| now.since(*at))
    }

    fn surface(&self, now: Mono, heard: Mono) -> Surface {
        // A lamp that is not right is no number.
        let numberless = self.signal() == Some(Signal::Lamp);
        let unseen =
            (self.known.estimate.is_none() && !numberless) || self.known.reasons.iter().any(|r| r.is_blind());
        let typed = self.is_typed();
        let stale = !typed && self.age(now).is_none_or(|age| age > STALE);
        let silent = self.known.verdict == Verdict::Go && now.since(heard) > SILENT;
        // A look that asks for no temperature goes without a reading.
        let gated = !self.known.reasons.contains(&Reason::NoBand);
        match self.known.verdict {
            _ if gated && (unseen || stale || silent) => Surface::NoReading,
            Verdict::Wait => Surface::Wait,
            Verdict::Go => Surface::Go,
            Verdict::TooHot => Surface::TooHot,
        }
    }

    /// What is still to be expected, counted from now.
    fn expected(&self, now: Mono) -> Forecast {
        let forecast = self.forecast();
        let elapsed = now.since(self.forecast_at).as_secs_f64();
        let later = |i: Option<events::Interval>| i.and_then(|i| later(i, elapsed));
        Forecast {
            opens_in: later(forecast.opens_in),
            closes_in: later(forecast.closes_in),
            back_in: later(forecast.back_in),
            read_again_in: forecast.read_again_in.map(|s| (s - elapsed).max(0.0)),
            run_out: forecast.run_out,
        }
    }

    fn step(&self) -> Option<Step> {
        self.known.running().map(|job| job.step)
    }

    fn forecast(&self) -> Forecast {
        self.known.forecast.unwrap_or_default()
    }

    fn empty_scale(&self) -> Option<Scale> {
        self.known.sheet.as_ref().map(|sheet| Scale::new(sheet, None, &Forecast::default()))
    }

    fn look(&self, look: &Look, fold: &Fold) -> View {
        let speech = look.speech;
        let surface = self.surface(look.now, fold.heard);
        let expected = self.expected(look.now);
        let estimate = self.known.estimate.filter(|_| surface != Surface::NoReading);
        let rounds = self.rounds(look.now, speech).filter(|_| look.seat == Seat::Inside);
        let (job, step) = (self.known.job.as_ref(), self.step());
        // While the search alone goes on, its own line says how it stands; a reading is not waited for.
        let searching = Finding::of(&self.known).is_some_and(|finding| finding.goes_on() && !self.running());
        let unread = searching && surface == Surface::NoReading;
        View {
            surface,
            word: surface.word(speech.lang),
            now: self.hands(look, surface, rounds.as_ref()),
            next: self
                .next()
                .filter(|_| look.seat == Seat::Under && !searching)
                .map(|next| speech.text(next)),
            clock: self.clock(surface, &expected, look, fold.heard),
            why: if unread { String::new() } else { self.why(surface, estimate, speech) },
            scale: match &self.known.sheet {
                Some(sheet) if surface != Surface::NoReading => Some(Scale::new(sheet, estimate, &expected)),
                _ => self.empty_scale(),
            },
            place: fold.place(speech),
            link: self.health(look.now, speech),
            step: step.and_then(|step| numbered(step, speech)),
            open: if self.running() {
                self.open().iter().map(|p| speech.of(*p)).collect()
            } else {
                Vec::new()
            },
            balance: job.map(|j| j.balance).and_then(|b| balance(&b, speech)),
            find: Finding::of(&self.known).map(|finding| {
                let says = finding.line(speech);
                // What to do stands above it already.
                if searching { says.replacen(&format!(" {}", finding.next(speech)), "", 1) } else { says }
            }),
            cautions: self.cautions(step, speech),
            offers: self.offers(look, step, rounds.as_ref()),
            undo: self
                .told
                .as_ref()
                .filter(|(_, at)| look.now.since(*at) < UNDO && self.running())
                .and_then(|(request, _)| taken_back(request, speech)),
            cue: match self.cue(surface, step, &expected) {
                None | Some(Cue::Soon) if rounds.as_ref().is_some_and(Rounds::is_due) => Some(Cue::MoveOn),
                cue => cue,
            },
            rounds,
            job: job.map(|j| j.job),
            seq: fold.seq.0,
        }
    }

    /// What comes after it. Where a gauge is read no port is opened.
    fn next(&self) -> Option<&'static str> {
        let advice = self.known.said.at(Role::Under);
        let of_the_port = matches!(advice, Advice::BeReady | Advice::StayClear | Advice::CheckAdapter);
        seat::next(advice).filter(|_| !(of_the_port && self.known.said.rim == Some(Rim::Gauge)))
    }

    /// What the stop rules say, and what to beware of at this step; at the end, what was found means.
    fn cautions(&self, step: Option<Step>, speech: Speech) -> Vec<Cow<'static, str>> {
        let stops = self.known.job.as_ref().map_or(&[][..], |j| &j.stops);
        let result = self.known.job.as_ref().and_then(|j| j.result.as_ref());
        let means = result.map_or(&[][..], |r| r.means()).iter().map(|m| speech.of(*m).into());
        let cautions = stops.iter().chain(step.map_or(&[][..], Caution::at)).map(|c| speech.caution(*c));
        cautions.chain(means).chain(self.known_badly(step).map(|says| speech.text(says).into())).collect()
    }

    /// What of the vehicle data nobody has confirmed, or gave: before the job, as it begins, and beside its result.
    fn known_badly(&self, step: Option<Step>) -> impl Iterator<Item = &'static str> {
        let sheet = self
            .known
            .sheet
            .as_ref()
            .filter(|_| step.is_none_or(|step| step == Step::Prepare) || !self.running());
        let unconfirmed = sheet.is_some_and(|s| !s.unconfirmed.is_empty()) && !self.running();
        let guessed = sheet.is_some_and(|s| !s.guessed.is_empty());
        let rows = [(unconfirmed, "data-unconfirmed"), (guessed, "data-guessed")];
        rows.into_iter().filter(|(holds, _)| *holds).map(|(_, says)| says)
    }

    fn offers(&self, look: &Look, step: Option<Step>, rounds: Option<&Rounds>) -> Vec<Offer> {
        let seat = look.seat;
        let air = [Quantity::IntakeAirTemperature, Quantity::AmbientAirTemperature];
        offer::offers(&Ground {
            seat,
            speech: look.speech,
            advice: self.known.said.at(seat.role()),
            right: self.known.said.right,
            verdict: self.known.verdict,
            open: self.open(),
            running: self.running(),
            port_open: self.port_open(),
            step,
            balance: self.known.job.as_ref().map(|j| j.balance),
            signal: self.signal(),
            people: self.known.link.people,
            lamp: self.known.sheet.as_ref().and_then(|sheet| sheet.check.lamp.as_ref()),
            shows_air: air.iter().any(|quantity| self.read.contains_key(quantity)),
            sheets: &self.known.sheets,
            rounds,
            asks: self.known.said.asks,
            asks_air: self.asks_air(step),
            finding: Finding::of(&self.known),
            has_sheet: self.known.sheet.is_some(),
        })
    }

    /// The sheet has a second band, nothing shows the air outside, and it is not decided yet which band counts.
    fn asks_air(&self, step: Option<Step>) -> bool {
        let second =
            self.known.sheet.as_ref().is_some_and(|s| s.check.hot_band_c.is_some() && !s.is_in_the_heat());
        let shown = self.read.contains_key(&Quantity::AmbientAirTemperature);
        second && !shown && step.is_none_or(|s| s < Step::Circulate)
    }

    fn port_open(&self) -> bool {
        self.known.port_open()
    }

    /// One sentence. With nothing read, an open port comes before everything else.
    fn hands(&self, look: &Look, surface: Surface, rounds: Option<&Rounds>) -> String {
        let (seat, speech) = (look.seat, look.speech);
        let advice = self.known.said.at(seat.role());
        let blind = surface == Surface::NoReading && seat == Seat::Under;
        let at_port = matches!(
            advice,
            Advice::OpenPort | Advice::WatchStream | Advice::StillFlowing | Advice::CheckAdapter
        );
        if blind && self.port_open() && at_port {
            return speech.text("close-port-nothing-known").to_owned();
        }
        if blind && matches!(advice, Advice::OpenPort | Advice::BeReady | Advice::StayClear) {
            return speech.text("keep-port-closed").to_owned();
        }
        if blind && matches!(advice, Advice::ReadGauge | Advice::ReadAgain) {
            return speech.text("leave-gauge-nothing-known").to_owned();
        }
        let finding = Finding::of(&self.known).filter(|finding| finding.goes_on() && !self.running());
        if let Some(finding) = finding {
            return finding.next(speech).to_owned();
        }
        let sentence = seat.sentence(&self.known.said, speech);
        if let Some(result) = self.known.job.as_ref().and_then(|j| j.result.as_ref()) {
            let show = |v| speech.millilitres(v);
            let may = result.may_be_driven(speech.lang, show).map_or(String::new(), |may| format!(" {may}"));
            return format!("{}{may} {sentence}", result.headline(speech.lang, show));
        }
        let top_up = self.known.job.as_ref().and_then(|j| j.top_up).filter(|_| seat == Seat::Under);
        if let (Advice::FillMore, Some(seconds)) = (advice, top_up.and_then(|t| t.seconds)) {
            let minutes = seconds.div_ceil(60).max(1).to_string();
            return format!("{sentence} {}", speech.with("look-again-in", &args!(minutes = minutes)));
        }
        if let Some(open) = self.still_open(advice, speech) {
            return speech.with("still-open", &args!(what = open));
        }
        match rounds.filter(|_| offer::may_shift(self.open())) {
            Some(rounds) => rounds.hands(speech),
            None => {
                match self.trouble().filter(|_| matches!(advice, Advice::CheckAdapter | Advice::PushAdapter))
                {
                    Some(trouble) => silence::hands(trouble, seat, speech),
                    None => sentence,
                }
            }
        }
    }

    /// What is still to be confirmed, by name, where the advice is about several things.
    fn still_open(&self, advice: Advice, speech: Speech) -> Option<String> {
        let of_prepare = [Precondition::OnStands, Precondition::VehicleLevel, Precondition::ExhaustOutside];
        let short = |p: &Precondition| speech.lang.also(*p, "short", p.short());
        let begun = !self.open().contains(&Precondition::OnStands);
        let open: Vec<&str> = match advice {
            Advice::ConfirmOpen => {
                // Without an adapter a cold start is told.
                let told = |p: &Precondition| self.known.link.people && *p == Precondition::StartedCold;
                self.open().iter().filter(|p| !p.shown_by_vehicle() || told(p)).map(short).collect()
            }
            Advice::PrepareVehicle if begun => {
                self.open().iter().filter(|p| of_prepare.contains(p)).map(short).collect()
            }
            _ => Vec::new(),
        };
        (!open.is_empty()).then(|| open.join(", "))
    }

    fn clock(&self, surface: Surface, expected: &Forecast, look: &Look, heard: Mono) -> Option<Clock> {
        let speech = look.speech;
        let span = |i: Option<events::Interval>, what| {
            i.map(|i| Clock { text: interval(i), what: speech.text(what) })
        };
        match surface {
            Surface::Wait => span(expected.opens_in, "until-window-opens"),
            // What was typed in ends before the window does.
            Surface::Go => match (expected.closes_in, expected.read_again_in) {
                (Some(closes), Some(again)) if closes.low <= again => {
                    span(Some(closes), "until-window-closes")
                }
                (_, Some(again)) => {
                    Some(Clock { text: seconds(again), what: speech.text("until-read-again") })
                }
                (closes, None) => span(closes, "until-window-closes"),
            },
            Surface::TooHot => span(expected.back_in, "until-back-in-band"),
            Surface::NoReading => {
                // What nobody has told yet is not late.
                let unread = if self.is_typed() { Duration::ZERO } else { look.now.since(heard) };
                let silent = self.age(look.now).unwrap_or(unread).as_secs();
                let what = speech.text("without-a-reading");
                Some(Clock { text: format!("{silent}\u{202f}s"), what })
                    .filter(|_| self.running() && silent > 0)
            }
        }
    }

    fn why(&self, surface: Surface, estimate: Option<Estimate>, speech: Speech) -> String {
        if let Some(text) = self.torques(speech) {
            return text;
        }
        if surface == Surface::NoReading {
            if let Some(trouble) = self.trouble() {
                return silence::why(trouble, self.known.link.request.as_deref(), speech);
            }
            let reason =
                self.known.reasons.iter().copied().find(|r| !r.remedy().is_empty() && !r.is_at_edge());
            return match reason.filter(|r| r.bearing() != Bearing::Work) {
                Some(r @ Reason::NoReading) if self.is_typed() => {
                    format!("{} {}", speech.of(r), speech.text("a-person-tells-it"))
                }
                Some(r) => format!("{} {}", speech.of(r), speech.lang.also(r, "remedy", r.remedy())),
                None => speech.text("last-reading-too-old").to_owned(),
            };
        }
        let near = match self.known.said.at(Role::Under) {
            Advice::BeReady | Advice::OpenPort => Some(Near::Soon),
            Advice::StayClear => Some(Near::Later),
            _ => None,
        };
        let ahead = self.forecast().run_out.zip(near);
        why::why(self.known.sheet.as_deref(), estimate, &self.known.reasons, ahead, speech)
    }

    /// At the plugs, the torques are what the eyes want.
    fn torques(&self, speech: Speech) -> Option<String> {
        let torque = self.known.sheet.as_ref()?.torque_nm.as_ref().filter(|_| {
            let at_a_plug = [Advice::Tighten, Advice::PutPipeIn, Advice::WasPipeOut];
            at_a_plug.contains(&self.known.said.at(Role::Under))
        })?;
        // The pipe before the fill; at the end its port would have to be opened for it.
        let plugs: &[(&str, Option<f64>)] = match self.known.said.at(Role::Under) {
            Advice::PutPipeIn | Advice::WasPipeOut => &[("torque-pipe", torque.standpipe)],
            _ => &[("torque-check-plug", torque.check_port), ("torque-fill-plug", torque.fill_port)],
        };
        let said: Vec<String> = plugs
            .iter()
            .filter_map(|(plug, nm)| {
                let torque = speech.newton_metres(units::NewtonMetres::clamped((*nm)?));
                Some(speech.with(plug, &args!(torque = torque)))
            })
            .collect();
        (!said.is_empty()).then(|| format!("{}.", sentence_case(&said.join(", "))))
    }

    fn health(&self, now: Mono, speech: Speech) -> String {
        let health = self.signal_health(now, speech);
        match self.known.link.people {
            true => speech.with("told-by-people", &args!(what = health)),
            false => health,
        }
    }

    fn signal_health(&self, now: Mono, speech: Speech) -> String {
        let Some(age) = self.age(now) else {
            return silence::corner(&self.known.link, self.signal(), speech);
        };
        let (message, count) = match age.as_secs() {
            ..10 => {
                ("signal-seconds-ago", speech.lang.number(&format!("{:.1}", age.as_secs_f64())).into_owned())
            }
            seconds @ 10..120 => ("signal-seconds-ago", seconds.to_string()),
            seconds => ("signal-minutes-ago", (seconds / 60).to_string()),
        };
        speech.with(message, &args!(signal = silence::named(self.signal(), speech), count = count))
    }

    /// What keeps the signal from being read. A thermometer that is typed in needs no adapter, until the daemon says
    /// so.
    fn trouble(&self) -> Option<Trouble> {
        let typed = self.is_typed() && !self.known.reasons.contains(&Reason::LinkLost);
        self.known.link.trouble.filter(|_| !typed)
    }

    /// The selector's rounds, while they are what is to be done.
    fn rounds(&self, now: Mono, speech: Speech) -> Option<Rounds> {
        let selector = self.known.sheet.as_ref()?.before.selector.as_ref();
        let due = self.known.said.at(Role::Inside) == Advice::CycleSelector
            && self.open().contains(&Precondition::SelectorCycled);
        let known = self.known.job.as_ref()?.selector.as_ref();
        let ago = known.map_or(Duration::ZERO, |_| now.since(self.rounds_at));
        Rounds::new(selector.filter(|_| due)?, known, ago, speech)
    }

    fn cue(&self, surface: Surface, step: Option<Step>, expected: &Forecast) -> Option<Cue> {
        let result = self.known.job.as_ref().and_then(|j| j.result.as_ref());
        if let Some(result) = result {
            return result.outcome.is_right().then_some(Cue::Done);
        }
        // Before the engine runs and after the port is closed there is nothing to be called to.
        if !step.is_some_and(|s| s >= Step::Circulate && s <= Step::Close) {
            return None;
        }
        let low = |i: Option<events::Interval>| i.map_or(f64::INFINITY, |i| i.low);
        match surface {
            Surface::Wait => (low(expected.opens_in) <= NEAR_S).then_some(Cue::Soon),
            Surface::Go => Some(match low(expected.closes_in) {
                s if s <= LAST_S => Cue::ClosingNow,
                s if s <= NEAR_S => Cue::Closing,
                _ => Cue::Go,
            }),
            Surface::TooHot => Some(Cue::TooHot),
            Surface::NoReading => Some(Cue::NoReading),
        }
    }
}

/// `40 s`, `3 min`: rounded down, for something must be done by then.
fn seconds(s: f64) -> String {
    match s {
        s if s < 120.0 => format!("{}\u{202f}s", (s / 10.0).floor() * 10.0),
        s => format!("{}\u{202f}min", (s / 60.0).floor()),
    }
}

/// What a step is called.
pub fn step_name(speech: Speech, step: Step) -> &'static str {
    speech.text(match step {
        Step::Prepare => "step-prepare",
        Step::Drain => "step-drain",
        Step::Fill => "step-fill",
        Step::Circulate => "step-circulate",
        Step::Window => "step-window",
        Step::RunOut => "step-run-out",
        Step::Trickle => "step-trickle",
        Step::Close => "step-close",
        Step::Torque => "step-torque",
        Step::TestDrive => "step-test-drive",
        Step::Recheck => "step-recheck",
    })
}

/// `step 4 of 11: circulate`.
fn numbered(step: Step, speech: Speech) -> Option<String> {
    let n = Step::ALL.iter().position(|s| *s == step)? + 1;
    let name = step_name(speech, step);
    Some(speech.with("step-of", &args!(step = n, steps = Step::ALL.len(), name = name)))
}

fn balance(b: &Balance, speech: Speech) -> Option<String> {
    let parts: Vec<String> = [
        ("amount-drained", b.drained_millilitres),
        ("amount-filled", b.filled_millilitres),
        ("amount-ran-out", b.ran_out_millilitres),
        ("amount-should-run-out", b.expected_run_out_millilitres),
    ]
    .into_iter()
    .filter_map(|(message, v)| Some(speech.with(message, &args!(amount = speech.millilitres(v?)))))
    .collect();
    let at = speech.celsius(b.reference_celsius);
    (!parts.is_empty()).then(|| speech.with("amounts-at", &args!(amounts = parts.join(", "), celsius = at)))
}

/// The first letter large.
fn sentence_case(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
