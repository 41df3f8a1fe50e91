//! What a plan says, in the reader's language and units.
//!
//! In: the plan. Out: labels, sentences, the lines of the checklist. Page and text are built of the same ones. Not here: where
//! they stand (`html.rs`, `md.rs`), the figures themselves (`plan.rs`).

use events::{Confirms, Hint, Look, LookEngine, Right, Signal, Step};
use job::{Card, CheckPoint, Plug, Says};
use units::{Celsius, Millilitres, Millimetres, NewtonMetres};
use words::{Speech, args};

use super::{Effect, HotDay, Off, Plan, Span};

/// Who is told it, and how.
#[derive(Debug, Clone, Copy)]
pub struct Teller(pub Speech);

/// A label and what stands behind it.
pub type Row = (&'static str, String);

impl Teller {
    /// What the plan is called.
    pub fn title(&self, plan: &Plan) -> String {
        self.0.with("plan-title", &args!(sheet = plan.sheet.clone()))
    }

    /// A message without variables.
    pub fn text(&self, name: &'static str) -> &'static str {
        self.0.text(name)
    }

    fn ml(&self, value: Millilitres) -> String {
        self.0.millilitres(value)
    }

    fn c(&self, value: Celsius) -> String {
        self.0.celsius(value)
    }

    fn minutes(&self, span: &Span) -> String {
        let (Some(low), Some(high)) = (span.low, span.high) else {
            return self.text("plan-unknown").to_owned();
        };
        let shown = |seconds: f64| format!("{:.0}", seconds / 60.0);
        self.0.with("plan-minutes", &args!(low = shown(low.min(high)), high = shown(low.max(high))))
    }

    /// The figures that this vehicle's looks have: no window where none waits for the temperature, no run-out where none is
    /// watched.
    pub fn figures(&self, plan: &Plan) -> Vec<Row> {
        let mut rows = self.amounts(plan);
        if plan.has(Step::Trickle) {
            rows.extend(self.run_out(plan));
        }
        if plan.has(Step::Window) {
            rows.extend(self.window(plan));
        }
        if plan.has(Step::RunOut) {
            rows.push((self.text("plan-tilt"), self.tilt(plan)));
        }
        rows
    }

    /// What is bought, filled and handed in.
    fn amounts(&self, plan: &Plan) -> Vec<Row> {
        let count = plan.containers;
        let buy = self.0.with(
            "plan-buy-says",
            &args!(
                count = count,
                each = self.ml(plan.container_millilitres),
                amount = self.ml(plan.buy_millilitres),
                fluid = plan.fluid.clone()
            ),
        );
        let drain = self.ml(plan.drain_millilitres);
        let drains = match plan.exchanges {
            1 => self.0.with("plan-one-drain", &args!(amount = drain)),
            count => self.0.with("plan-drains", &args!(count = count, amount = drain)),
        };
        let parts = (plan.parts_millilitres > Millilitres::ZERO)
            .then(|| self.0.with("plan-for-parts", &args!(amount = self.ml(plan.parts_millilitres))));
        let extra =
            (plan.run_out_millilitres > Millilitres::ZERO).then(|| self.text("plan-the-extra").to_owned());
        let parts: Vec<String> = [Some(drains), parts, extra].into_iter().flatten().collect();
        let amount = self.ml(plan.fill_millilitres);
        let fill = self.0.with("plan-fill-says", &args!(amount = amount, parts = parts.join(", ")));
        let waste = self.0.with("plan-hand-in", &args!(amount = self.ml(plan.waste_millilitres)));
        let fresh = self.0.with("plan-at-best", &args!(percent = plan.fresh_percent));
        vec![
            (self.text("plan-buy"), buy),
            (self.text("plan-fill"), fill),
            (self.text("balance-waste"), waste),
            (self.text("plan-fresh"), fresh),
        ]
    }

    fn run_out(&self, plan: &Plan) -> Vec<Row> {
        let [low, high] = plan.band_celsius.map(Celsius::to_f64);
        let middle = self.c(Celsius::clamped(f64::midpoint(low, high)));
        let amount = self.ml(plan.run_out_millilitres);
        let runs_out = self.0.with("plan-runs-out-says", &args!(amount = amount, celsius = middle));
        let trickle = plan.run_out_seconds.map_or_else(
            || self.text("plan-unknown").to_owned(),
            |s| self.0.with("plan-trickle-says", &args!(seconds = format!("{s:.0}"))),
        );
        vec![(self.text("plan-runs-out"), runs_out), (self.text("plan-trickle"), trickle)]
    }

    /// When the temperature is right, for how long, and what being off costs.
    fn window(&self, plan: &Plan) -> Vec<Row> {
        let signal = self.text(match plan.signal {
            Signal::Fluid => "name-fluid",
            Signal::Coolant => "name-coolant",
            Signal::Spot => "name-spot",
            Signal::Display => "name-display",
            Signal::Lamp => "name-lamp",
        });
        let [low, high] = plan.band_celsius.map(|t| self.c(t));
        let band = self.0.with("band-by", &args!(low = low, high = high, signal = signal));
        let mut rows = vec![(self.text("label-band"), band)];
        rows.extend(plan.hot.as_ref().map(|hot| {
            let [low, high] = hot.band_celsius.map(|t| self.c(t));
            let air = self.c(hot.from_air_celsius);
            (self.text("plan-hot"), self.0.with("plan-hot-says", &args!(low = low, high = high, air = air)))
        }));
        let (opens, lasts) = (self.minutes(&plan.opens_seconds), self.minutes(&plan.window_seconds));
        let air = self.c(plan.air_celsius);
        let opens = self.0.with("plan-opens-says", &args!(minutes = opens, air = air));
        rows.push((self.text("plan-opens"), opens));
        rows.push((self.text("plan-lasts"), self.0.with("plan-lasts-says", &args!(minutes = lasts))));
        rows.extend(plan.hot_day.map(|day| {
            let name = match day {
                HotDay::SecondBand => "plan-day-second-band",
                HotDay::BelowTheSecond => "plan-day-below-second",
                HotDay::NoSecond => "plan-day-no-second",
            };
            (self.text("plan-hot-day"), self.text(name).to_owned())
        }));
        rows.push((self.text("plan-degree"), self.degree(plan)));
        rows.push((self.text("plan-left-out"), self.text(plan.leaves_out_name).to_owned()));
        rows
    }

    /// What a degree of the reader's scale costs, and which way it goes.
    fn degree(&self, plan: &Plan) -> String {
        let (per, degree) = match self.0.units.is_in_fahrenheit() {
            true => (1.8, "1\u{202f}°F"),
            false => (1.0, "1\u{202f}°C"),
        };
        let each = plan.millilitres_per_kelvin / per;
        let name = if each < 0.0 { "plan-degree-falls" } else { "plan-degree-rises" };
        self.0.with(name, &args!(amount = self.fine(each), degree = degree))
    }

    /// A small amount with its sign: tenths of a millilitre count where one degree is asked for.
    fn fine(&self, ml: f64) -> String {
        if self.0.units.is_in_fahrenheit() {
            let ounce = match self.0.units {
                units::text::UnitSystem::Imperial => units::text::FLUID_OUNCE_IMPERIAL_ML,
                _ => units::text::FLUID_OUNCE_US_ML,
            };
            return self.0.lang.number(&format!("{:+.2}\u{202f}fl\u{a0}oz", ml / ounce)).into_owned();
        }
        self.0.lang.number(&format!("{ml:+.1}\u{202f}mL")).into_owned()
    }

    fn tilt(&self, plan: &Plan) -> String {
        let signed = |ml: f64| self.0.signed(Millilitres::clamped(ml));
        let allowed = self.0.lang.number(&format!("{:.1}°", plan.tilt_allowed_degrees)).into_owned();
        let (pitch, roll) =
            (signed(plan.millilitres_per_degree_pitch), signed(plan.millilitres_per_degree_roll));
        self.0.with("plan-tilt-says", &args!(pitch = pitch, roll = roll, allowed = allowed))
    }

    /// A plug with its torque.
    pub fn torque(&self, plug: Plug, torque: NewtonMetres) -> String {
        let name = match plug {
            Plug::Standpipe => "torque-pipe",
            Plug::CheckPort => "torque-check-plug",
            Plug::FillPort => "torque-fill-plug",
        };
        self.0.with(name, &args!(torque = self.0.newton_metres(torque)))
    }

    /// What is off, by how much.
    pub fn off(&self, effect: &Effect) -> String {
        let degrees = |by: f64| format!("{by:+.1}°");
        let (name, by) = match effect.of {
            Off::Nose => ("plan-off-nose", degrees(effect.by)),
            Off::LeftSide => ("plan-off-left", degrees(effect.by)),
            Off::Temperature => {
                let per = if self.0.units.is_in_fahrenheit() { 1.8 } else { 1.0 };
                let by = format!("{:+.0}\u{202f}{}", effect.by * per, self.0.units.degree_sign());
                ("plan-off-temperature", by)
            }
        };
        self.0.with(name, &args!(by = self.0.lang.number(&by).into_owned()))
    }

    /// What it costs: the amount, the height at the pipe, and whether that is still right.
    pub fn costs(&self, effect: &Effect) -> [String; 3] {
        let height = Millimetres::clamped(effect.millimetres);
        let sign = if height.steps() > 0 { "+" } else { "" };
        let right = if effect.within { "plan-still-right" } else { "plan-too-much" };
        [
            self.0.signed(Millilitres::clamped(effect.millilitres)),
            format!("{sign}{}", self.0.millimetres(height)),
            self.text(right).to_owned(),
        ]
    }

    /// What nobody has confirmed.
    pub fn unconfirmed(&self, plan: &Plan) -> Vec<String> {
        let says = |key: &String| self.0.with("plan-before-any-job", &args!(what = key.clone()));
        plan.unconfirmed_keys.iter().map(says).collect()
    }

    /// What was guessed, what each costs, and what would help most.
    pub fn guessed(&self, plan: &Plan) -> Vec<String> {
        let costs = plan.worth.as_ref().map_or(&[] as &[_], |worth| worth.guesses.as_slice());
        let says = |key: &String| {
            let cost = costs.iter().find(|cost| cost.key == key).filter(|cost| cost.costs_ml >= 1.0);
            match cost {
                Some(cost) => {
                    let amount = self.ml(Millilitres::clamped(cost.costs_ml.round()));
                    self.0.with("plan-guess-costs", &args!(what = key.clone(), amount = amount))
                }
                None => self.0.with("plan-guess-is-free", &args!(what = key.clone())),
            }
        };
        let mut all: Vec<String> = plan.guessed.iter().map(|guess| says(&guess.key)).collect();
        let most = plan.worth.as_ref().and_then(|worth| Some((worth, worth.most()?)));
        if let Some((worth, most)) = most.filter(|_| !all.is_empty()) {
            let ml = |ml: f64| self.ml(Millilitres::clamped(ml.round()));
            let (with, without) = (ml(worth.expanded_ml), ml(worth.known_ml));
            let cost = self.0.with("guesses-cost", &args!(with = with, without = without));
            let (what, within) = (most.key.to_owned(), ml(most.without_ml));
            let helps = self.0.with("guess-that-helps-most", &args!(what = what, within = within));
            all.push(format!("{cost} {helps}"));
        }
        all
    }

    /// A step's name.
    pub fn step(&self, step: Step) -> &'static str {
        view::step_name(self.0, step)
    }

    /// Who confirms it.
    pub fn who(&self, who: Confirms) -> &'static str {
        self.text(match who {
            Confirms::Under => "who-under",
            Confirms::Inside => "who-inside",
            Confirms::Either => "who-either",
            Confirms::Vehicle => "who-vehicle",
        })
    }

    /// What a step is on this vehicle.
    pub fn says(&self, card: &Card) -> String {
        match &card.says {
            Says::Step(step) => self.0.of(*step).to_owned(),
            Says::Hint(hint) => self.0.of(*hint).to_owned(),
            Says::Look(look) => self.0.with("line-look", &args!(look = self.look(look))),
            Says::Looks(count) => self.0.with("line-looks", &args!(count = *count)),
        }
    }

    /// What must lie ready.
    pub fn tools(&self, card: &Card) -> Vec<String> {
        let usual = card.tools.iter().map(|tool| self.0.of(*tool).to_owned());
        usual.chain(card.own_tools.iter().cloned()).collect()
    }

    /// What is done or confirmed, one line each. Until a native speaker has checked the language, English stands beside what
    /// somebody's safety hangs on.
    pub fn lines(&self, card: &Card) -> Vec<String> {
        card.lines.iter().map(|line| self.line(line)).collect()
    }

    fn line(&self, line: &CheckPoint) -> String {
        match line {
            CheckPoint::Confirm(what) => self.0.of(*what).to_owned(),
            CheckPoint::Hint(hint) if hurts(*hint) => self.0.caution(*hint).into_owned(),
            CheckPoint::Hint(hint) => self.0.of(*hint).to_owned(),
            CheckPoint::Exchanges(count) => self.0.with("line-exchanges", &args!(count = *count)),
            CheckPoint::Selector { positions, dwell_s, rounds } => {
                let positions = positions.join(" → ");
                let facts = args!(positions = positions, dwell = *dwell_s, rounds = *rounds);
                self.0.with("line-selector", &facts)
            }
            CheckPoint::Look { number, look } => {
                self.0.with("line-look-number", &args!(number = *number, look = self.look(look)))
            }
            CheckPoint::Wave(seconds) => self.0.with("line-wave", &args!(seconds = seconds.to_string())),
            CheckPoint::Stand { pitch_deg, roll_deg } => {
                let side = |degrees: f64, up: &'static str, down: &'static str| {
                    let shown = self.0.lang.number(&format!("{}°", degrees.abs())).into_owned();
                    let name = if degrees > 0.0 { up } else { down };
                    (degrees != 0.0).then(|| self.0.with(name, &args!(degrees = shown)))
                };
                let how = [
                    side(*pitch_deg, "stand-nose-up", "stand-nose-down"),
                    side(*roll_deg, "stand-left-up", "stand-right-up"),
                ];
                let how: Vec<String> = how.into_iter().flatten().collect();
                self.0.with("line-stand", &args!(how = how.join(", ")))
            }
        }
    }

    /// One look: the engine, the wait, the gate, and the sign that it is right.
    fn look(&self, look: &Look) -> String {
        let engine = self.text(match look.engine {
            LookEngine::Idle => "look-idling",
            LookEngine::Off => "look-engine-off",
            LookEngine::ReadyOff => "look-ready-off",
        });
        let position = look
            .position
            .as_ref()
            .map(|position| self.0.with("look-in-position", &args!(position = position.clone())));
        let wait = match (look.wait_from_s(), look.wait_to_s()) {
            (0, None) => None,
            (from, None) => Some(self.0.with("look-after", &args!(seconds = from))),
            (from, Some(to)) => Some(self.0.with("look-between", &args!(from = from, to = to))),
        };
        let gate = look.is_gated().then(|| self.text("look-in-band").to_owned());
        let parts: Vec<String> =
            [Some(engine.to_owned()), position, wait, gate].into_iter().flatten().collect();
        let add = (look.then_add_ml > 0.0).then(|| {
            let amount = self.ml(Millilitres::clamped(look.then_add_ml));
            format!("; {}", self.0.with("look-then-add", &args!(amount = amount)))
        });
        let says = format!("{}{}.", self.sign(look), add.unwrap_or_default());
        self.0.with("label-and-value", &args!(label = parts.join(", "), value = says))
    }

    fn sign(&self, look: &Look) -> String {
        let name = match (look.right, look.mm) {
            (Right::BelowEdge, Some([low, high])) => {
                let mm = |mm: f64| self.0.millimetres(Millimetres::clamped(mm));
                return self.0.with("sign-below-edge", &args!(low = mm(low), high = mm(high)));
            }
            (Right::Trickle, _) => "sign-thread",
            (Right::FirstDrips, _) => "sign-first-drips",
            (Right::Drips, _) => "sign-drips",
            (Right::LowerEdge | Right::BelowEdge, _) => "sign-at-edge",
            (Right::Chart, _) => "sign-chart",
            (Right::Amount, _) => "sign-amounts",
        };
        self.text(name).to_owned()
    }

    /// What is special on this vehicle, in the words of its sheet, and when it may be told out of its order.
    pub fn note(&self, card: &Card) -> Vec<String> {
        let order = card.out_of_order.map(|hint| {
            let (label, value) = (self.text("plan-out-of-order"), self.0.of(hint));
            self.0.with("label-and-value", &args!(label = label, value = value))
        });
        [card.note.clone(), order].into_iter().flatten().collect()
    }
}

/// Whether somebody's safety hangs on it.
const fn hurts(hint: Hint) -> bool {
    matches!(
        hint,
        Hint::AirSprings
            | Hint::Orange
            | Hint::OnALift
            | Hint::SitDownFirst
            | Hint::OutOfAPit
            | Hint::FanMayStart
            | Hint::WipeWhileHot
    )
}
