//! Draws the identifiers of one vehicle: units, blocks, fields, and how its units behave.
//!
//! In: a seed, a bus. Out: [`Identifiers`]. 20 to 400 identifiers can be read, evenly in the logarithm; each unit has one to five blocks, begun at a
//! page, at a multiple of sixteen or anywhere, with holes; a few identifiers lie alone. Encodings are drawn evenly over the reference's rows.
//! Not here: what a signal does (`signal.rs`).

use std::collections::BTreeMap;

use units::{Mono, words};

use super::coding::Coding;
use super::signal::{Nodes, Signal};
use super::{Field, Identifiers, Key, Refusal, Truth, Unit};
use super::{OUT_OF_RANGE, SUB_FUNCTION_NOT_SUPPORTED};
use crate::bus::Bus;
use crate::dice::Dice;
use crate::sensors::Counting;

words! {
    /// What is unusual about a vehicle.
    Form {
        Plain "plain" "One sensor in the fluid, units that answer.",
        TwoSensors "two-sensors" "Two sensors in the fluid.",
        WithEngine "with-engine" "The engine's unit gives the fluid's temperature.",
        None "none" "No identifier carries it.",
        MadeUp "made-up" "The identifier shows a made-up value, and nothing moves it.",
        Locked "locked" "Its identifier is locked.",
        RunningOnly "running-only" "Its unit gives it only while the engine runs.",
        Refuses "refuses" "The other units refuse the service.",
        Silent "silent" "The unit says nothing to what it does not have.",
        Late "late" "Some answers come too late.",
        Others "others" "Some answers are those of another request.",
        Alone "alone" "The identifier lies alone, far from any block.",
    }
}

impl Form {
    /// Whether the vehicle has anything to find.
    pub const fn has_fluid(self) -> bool {
        !matches!(self, Self::None | Self::MadeUp | Self::Locked)
    }

    /// Half are plain.
    fn draw(dice: &mut Dice) -> Self {
        if dice.chance(0.45) { Self::Plain } else { dice.pick(Self::ALL).copied().unwrap_or(Self::Plain) }
    }
}

/// What a field of filler or a look-alike is drawn with.
struct Makes<'a> {
    dice: &'a mut Dice,
    counting: Counting,
}

impl Identifiers {
    /// The identifiers of the vehicle of this seed on a bus.
    pub fn draw(seed: u64, bus: &Bus) -> Self {
        let mut dice = Dice::part(seed, 0x1DE7);
        let form = Form::draw(&mut dice);
        Self::of_form(seed, bus, form)
    }

    /// The same for a form that is asked for.
    pub fn of_form(seed: u64, bus: &Bus, form: Form) -> Self {
        let mut dice = Dice::part(seed, 0x1DE8);
        let units = units(&mut dice, bus, form);
        let wanted = (20.0_f64.ln() + dice.unit() * (400.0_f64 / 20.0).ln()).exp() as usize;
        let places = places(&mut dice, &units, wanted);
        let lonely = lonely(&mut dice, &units);
        let counting = if dice.chance(0.5) { Counting::Rounded } else { Counting::Truncated };
        let nodes = Nodes::draw(&mut dice);
        let mut vehicle = Self {
            form,
            units,
            items: BTreeMap::new(),
            locked: Vec::new(),
            running_only: Vec::new(),
            nodes,
            truths: Vec::new(),
            dice: Dice::part(seed, 0x1DE9),
            followed: Mono::ZERO,
        };
        vehicle.fill(&mut dice, &places, &lonely, counting);
        vehicle
    }

    fn fill(&mut self, dice: &mut Dice, places: &[Key], lonely: &[Key], counting: Counting) {
        let with = if self.form == Form::WithEngine { 0 } else { 1 };
        let gearbox = self.units.get(with).map_or(0, |unit| unit.asked);
        let mut free: Vec<Key> = places.to_vec();
        let mut special = special(dice, self.form);
        let mut truths = Vec::new();
        // What matters goes first, each to a place that its unit has; then everything else is filled.
        for (signal, home) in special.drain(..) {
            let of_unit = |key: &Key| match home {
                Home::Gearbox => key.0 == gearbox,
                Home::Engine => self.units.first().is_some_and(|unit| unit.asked == key.0),
                Home::Anywhere => true,
            };
            let choices: Vec<usize> =
                (0..free.len()).filter(|at| free.get(*at).is_some_and(of_unit)).collect();
            let Some(at) = dice.pick(&choices).copied() else { continue };
            let mut key = free.swap_remove(at);
            if signal == Signal::Fluid && self.form == Form::Alone && key.1 == 0x22 {
                key.2 = dice.below(0xF000) as u16;
            }
            let coding = Coding::draw(dice, counting);
            let mut makes = Makes { dice: &mut *dice, counting };
            let (fields, place) = makes.around(key.1, Field { signal, coding });
            if matches!(signal, Signal::Fluid | Signal::FluidToo { .. }) {
                truths.push(Truth { asked: key.0, service: key.1, id: key.2, byte: place, coding });
                match self.form {
                    Form::Locked => self.locked.push(key),
                    Form::RunningOnly => self.running_only.push(key),
                    _ => {}
                }
            }
            self.items.insert(key, fields);
        }
        for key in free.into_iter().chain(lonely.iter().copied()) {
            let mut makes = Makes { dice: &mut *dice, counting };
            let first = makes.filler();
            let (fields, _) = makes.around(key.1, first);
            self.items.entry(key).or_insert(fields);
        }
        if self.form.has_fluid() {
            self.truths = truths;
        }
    }
}

/// Which unit a signal belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Home {
    Gearbox,
    Engine,
    Anywhere,
}

/// The fluid and its look-alikes.
fn special(dice: &mut Dice, form: Form) -> Vec<(Signal, Home)> {
    use Home::{Anywhere, Engine, Gearbox};
    let mut all = Vec::new();
    match form {
        Form::None => {}
        Form::MadeUp => all.push((Signal::Fixed(*dice.pick(&[40.0, 60.0, 80.0]).unwrap_or(&60.0)), Gearbox)),
        _ => all.push((Signal::Fluid, Gearbox)),
    }
    if form == Form::TwoSensors {
        all.push((Signal::FluidToo { off_k: dice.within(1.0) }, Gearbox));
    }
    let own = dice.within(0.7);
    let maybe: &[(f64, Signal, Home)] = &[
        (0.9, Signal::Coolant { off_k: 0.0 }, Engine),
        (0.6, Signal::Coolant { off_k: own }, Gearbox),
        (0.7, Signal::Oil { off_k: own }, Engine),
        (0.15, Signal::Oil { off_k: own }, Gearbox),
        (0.6, Signal::Intake { off_k: 0.0 }, Engine),
        (0.3, Signal::Intake { off_k: own }, Anywhere),
        (0.6, Signal::Ambient { off_k: 0.0 }, Anywhere),
        (0.5, Signal::Case { off_k: own }, Gearbox),
        (0.3, Signal::Stuck, Gearbox),
        (0.7, Signal::Fixed(90.0), Engine),
        (0.5, Signal::Fixed(20.0), Anywhere),
        (0.5, Signal::Fixed(80.0), Gearbox),
    ];
    for (chance, signal, home) in maybe {
        if dice.chance(*chance) {
            all.push((*signal, *home));
        }
    }
    all
}

impl Makes<'_> {
    /// Something that is no temperature, or one that never moves.
    fn filler(&mut self) -> Field {
        let dice = &mut *self.dice;
        let (signal, coding) = match dice.below(12) {
            0 => {
                let bytes = if dice.chance(0.5) { 1 } else { 2 };
                (counter(dice), Coding::plain(bytes, 1.0, 0.0))
            }
            1 => (Signal::Fixed(dice.between(0.0, 100.0).floor()), Coding::plain(1, 1.0, 0.0)),
            2 => (Signal::Torque, Coding::plain(2, 0.5, -500.0)),
            3 => (Signal::Speed, Coding::plain(2, 0.25, 0.0)),
            4 => (Signal::WantedSpeed, Coding::plain(1, 10.0, 0.0)),
            5 => (Signal::Volts, Coding::plain(1, 0.1, 0.0)),
            6 => (Signal::Pressure { bar: dice.between(2.0, 12.0) }, Coding::plain(1, 0.1, 0.0)),
            7 => {
                let (still, running, restless) =
                    (dice.roll() as u8, dice.roll() as u8, dice.roll() as u8 & 0x11);
                (Signal::Flags { still, running, restless }, Coding::plain(1, 1.0, 0.0))
            }
            8 => {
                let (middle, half) = (dice.between(5.0, 250.0), dice.between(0.5, 30.0));
                (Signal::Noise { middle, half }, Coding::plain(1, 1.0, 0.0))
            }
            9 => (Signal::Fixed(dice.between(-30.0, 120.0)), Coding::draw(dice, self.counting)),
            10 => (Signal::Fixed(dice.between(0.0, 65_535.0)), Coding::plain(2, 1.0, 0.0)),
            _ => (Signal::Fixed(dice.between(0.0, 255.0)), Coding::plain(1, 1.0, 0.0)),
        };
        Field { signal, coding }
    }

    /// An answer that holds the field, and where it starts in it: usually alone, sometimes among others; service 21 gives whole blocks.
    fn around(&mut self, service: u8, field: Field) -> (Vec<Field>, u8) {
        let most = if service == 0x21 { 12 } else { 3 };
        let alone = service == 0x22 && self.dice.chance(0.65);
        let (before, after) = if alone { (0, 0) } else { (self.dice.below(most), self.dice.below(most)) };
        let mut fields: Vec<Field> = (0..before).map(|_| self.filler()).collect();
        let byte = fields.iter().map(|field| field.coding.bytes).sum();
        fields.push(field);
        fields.extend((0..after).map(|_| self.filler()));
        (fields, byte)
    }
}

fn counter(dice: &mut Dice) -> Signal {
    Signal::Counter {
        from: dice.between(0.0, 255.0).floor(),
        per_s: *dice.pick(&[0.02, 0.1, 1.0, 10.0, 100.0]).unwrap_or(&1.0),
        wraps: *dice.pick(&[256.0, 65_536.0]).unwrap_or(&256.0),
        running: dice.chance(0.5),
    }
}

/// The engine's unit, the transmission's, and up to two more.
fn units(dice: &mut Dice, bus: &Bus, form: Form) -> Vec<Unit> {
    let can11 = bus.form == frames::Bus::Can11;
    let engine: u8 = if can11 { 0 } else { 0x10 };
    let usual: u8 = if can11 { 1 } else { 0x18 };
    let rest: &[u8] = if can11 { &[2, 3, 4, 5, 6, 7] } else { &[0x19, 0x1A, 0x1B, 0x11, 0x12] };
    let gearbox = if dice.chance(0.75) { usual } else { *dice.pick(rest).unwrap_or(&usual) };
    let mut addresses = vec![engine, gearbox];
    for _ in 0..dice.below(3) {
        let more = *dice.pick(rest).unwrap_or(&usual);
        if !addresses.contains(&more) {
            addresses.push(more);
        }
    }
    let code = if bus.form.is_can() || dice.chance(0.5) { OUT_OF_RANGE } else { SUB_FUNCTION_NOT_SUPPORTED };
    let services = |dice: &mut Dice| match (bus.form.is_can(), dice.below(10)) {
        (true, _) | (false, 0..=1) => [false, true],
        (false, 2..=6) => [true, false],
        (false, _) => [true, true],
    };
    let mut units = Vec::new();
    for (number, address) in addresses.iter().enumerate() {
        let fluid = number == usize::from(form != Form::WithEngine);
        let odd = |of: Form, low: f64, high: f64, dice: &mut Dice| {
            if form == of && number < 2 { dice.between(low, high) as u8 } else { 0 }
        };
        units.push(Unit {
            asked: bus.place(*address).asked,
            standard: number == 0 || number == 1 && dice.chance(0.85),
            services: if form == Form::Refuses && !fluid { [false; 2] } else { services(dice) },
            refuses: if form == Form::Silent && fluid { Refusal::Silence } else { Refusal::Code(code) },
            late_percent: odd(Form::Late, 2.0, 25.0, dice),
            other_percent: odd(Form::Others, 1.0, 8.0, dice),
        });
    }
    units
}

/// Where identifiers lie: blocks of each unit that takes a service.
fn places(dice: &mut Dice, units: &[Unit], wanted: usize) -> Vec<Key> {
    let open: Vec<&Unit> = units.iter().filter(|unit| unit.services != [false; 2]).collect();
    let mut keys = std::collections::BTreeSet::new();
    let shares: Vec<f64> = open.iter().map(|_| dice.between(0.5, 1.5)).collect();
    let all: f64 = shares.iter().sum();
    for (unit, share) in open.iter().zip(shares) {
        let mut left = ((wanted as f64 * share / all) as usize).max(6);
        let two_bytes = unit.services[1] && (!unit.services[0] || dice.chance(0.5));
        let service = if two_bytes { 0x22 } else { 0x21 };
        if !two_bytes {
            // There are 256 in all, and each answer is a block of its own.
            left = left.min(60);
        }
        let blocks = 1 + dice.below(5);
        let each = left.div_ceil(blocks).max(1);
        while left > 0 {
            let density = dice.between(0.5, 1.0);
            let (top, at) = if two_bytes { (0xF000, dice.below(0xF000)) } else { (0x100, dice.below(0x100)) };
            let start = match dice.below(10) {
                0..=3 if two_bytes => at & 0xFF00,
                4..=6 => at & 0xFFF0,
                0..=3 => 0,
                _ => at,
            };
            let mut id = start;
            let mut here = each.min(left);
            left -= here;
            while here > 0 {
                if id == start || dice.chance(density) {
                    if !keys.insert((unit.asked, service, (id % top) as u16))
                        && !two_bytes
                        && keys.len() > 200
                    {
                        break;
                    }
                    here -= 1;
                }
                id += 1;
            }
        }
    }
    keys.into_iter().collect()
}

/// A few lie alone, whatever they are; the fluid only in the form of that name.
fn lonely(dice: &mut Dice, units: &[Unit]) -> Vec<Key> {
    let two_bytes: Vec<&Unit> = units.iter().filter(|unit| unit.services[1]).collect();
    (0..dice.below(6))
        .filter_map(|_| Some((dice.pick(&two_bytes)?.asked, 0x22, dice.below(0xF000) as u16)))
        .collect()
}
