//! What is asked for a new sheet: one row a value, with what it means and where it is found.
//!
//! The rows are data; how they are asked stands in `ask.rs`. A row is asked only where its condition holds.

/// One value.
pub struct Question {
    /// Its key in the sheet.
    pub key: &'static str,
    /// What is asked.
    pub asks: &'static str,
    /// What it means.
    pub means: &'static str,
    /// Where a technician finds it.
    pub found: &'static str,
    /// The answer to an empty line; none where the value must be given.
    pub usual: Option<&'static str>,
    /// How it is read.
    pub kind: Kind,
    /// When it is asked.
    pub when: When,
}

/// How an answer is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Words.
    Text,
    /// One of these words.
    Word(&'static [&'static str]),
    /// Two temperatures: `35C 45C`.
    Band,
    /// Two whole numbers: `550 900`.
    Range,
    /// A volume: `6.5L`.
    Volume,
    /// A surface: `600cm2`, `0.06m2`.
    Surface,
    /// Two lengths: `120mm 0mm`.
    Lengths,
    /// A torque: `40Nm`, `29lbft`; empty: not known.
    Torque,
    /// A number as a control unit counts, `0x4D07` or `7`.
    Number,
    /// A decimal number without a unit.
    Decimal,
    /// Yes or no.
    Yes,
    /// Positions of the selector: `P R N D`; empty: it is not moved.
    Positions,
    /// Whole days: `3 14`; empty: none.
    Days,
}

/// When a question is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// Always.
    Always,
    /// The signal is `fluid`.
    Fluid,
    /// The selector is moved.
    Selector,
}

const fn row(
    key: &'static str,
    kind: Kind,
    usual: Option<&'static str>,
    when: When,
    asks: &'static str,
    means: &'static str,
    found: &'static str,
) -> Question {
    Question { key, asks, means, found, usual, kind, when }
}

/// Every value that is asked, in the order of the sheet.
#[rustfmt::skip]
pub const QUESTIONS: &[Question] = &[
    row("name", Kind::Text, None, When::Always,
        "What do people call this kind of vehicle?",
        "A name for lists and reports, not a single vehicle's plate.",
        "Your own words: transmission and installation."),
    row("check.signal", Kind::Word(&["fluid", "coolant", "spot", "display"]), Some("fluid"), When::Always,
        "Which temperature is the check gated on: fluid, coolant, spot or display?",
        "fluid: a control unit tells it. coolant: the coolant stands in. spot: a thermometer at the sump, typed in. display: a number on the vehicle's display, told. For a lamp see the template.",
        "The maker's instruction for checking the level names the temperature; `standpipe find` searches an identifier."),
    row("check.band_c", Kind::Band, None, When::Always,
        "Between which temperatures is the level right? Like `35C 45C` or `95F 113F`.",
        "The band of the level check, low and high.",
        "The maker's instruction for checking the fluid level."),
    row("check.idle_rpm", Kind::Range, Some("550 900"), When::Always,
        "In which range does the engine idle, in 1/min? Like `550 900`.",
        "Outside this range the verdict is never `go`.",
        "The nominal idle speed of the engine, and some 150 1/min to both sides."),
    row("identifier.service", Kind::Number, Some("0x22"), When::Fluid,
        "Which reading service carries the temperature: 0x22 or 0x21?",
        "Only reading services are ever sent.",
        "`standpipe find`, or the maker's description of the control unit."),
    row("identifier.id", Kind::Number, None, When::Fluid,
        "Which identifier? Like `0x4D07`.",
        "The number that is asked for.",
        "`standpipe find`, or the maker's description of the control unit."),
    row("identifier.header", Kind::Text, Some("7E1"), When::Fluid,
        "At which address does the control unit listen? Like `7E1`.",
        "The address of the request, hex digits.",
        "`standpipe probe` lists the control units that answer."),
    row("identifier.byte", Kind::Number, Some("0"), When::Fluid,
        "Which byte of the answer is the first of the value, counted from 0 after the identifier?",
        "Where the value stands in the answer.",
        "`standpipe find`, or the maker's description."),
    row("identifier.length", Kind::Number, Some("1"), When::Fluid,
        "How many bytes has it, 1 to 4?",
        "The length of the value.",
        "`standpipe find`, or the maker's description."),
    row("identifier.scale", Kind::Decimal, Some("1.0"), When::Fluid,
        "How many °C is one count?",
        "Value = count × scale + offset.",
        "`standpipe find`, or compare two readings with a thermometer."),
    row("identifier.offset", Kind::Decimal, Some("-40.0"), When::Fluid,
        "How many °C is count 0?",
        "Value = count × scale + offset.",
        "`standpipe find`, or compare with a thermometer on a cold vehicle."),
    row("fluid.type", Kind::Text, Some("as the vehicle's maker specifies"), When::Always,
        "Which fluid does the maker ask for?",
        "Printed in plan and report. A fluid that only looks alike costs the transmission.",
        "The maker's table of fluids, or the plate on the transmission."),
    row("fluid.total_ml", Kind::Volume, None, When::Always,
        "How much fluid is in it altogether? Like `6.5L` or `6.9qt`.",
        "Sump, converter, cooler and passages: all that grows with temperature.",
        "\"Capacity, dry\" or \"after overhaul\" in the maker's data."),
    row("fluid.drain_ml", Kind::Volume, None, When::Always,
        "How much does a drain bring out? Like `2.4L`.",
        "What will be filled again, beside the margin.",
        "\"Capacity, service fill\" or \"oil change\" in the maker's data; or what came out last time."),
    row("fluid.margin_ml", Kind::Volume, Some("470ml"), When::Always,
        "How much is filled beyond that, to run out at the check port? Like `470ml`.",
        "Enough to show by running out even where it was a little low.",
        "The maker's instruction; about half a litre where it says nothing (common practice, no source)."),
    row("standpipe.surface_m2", Kind::Surface, Some("600cm2"), When::Always,
        "How large is the free surface of the fluid at the rim of the pipe? Like `600cm2` or `0.06m2`.",
        "Turns millimetres into millilitres.",
        "Measure the pan where the rim is, less what stands in it; car sumps have 450 to 900 cm2 (from memory)."),
    row("standpipe.offset_mm", Kind::Lengths, Some("120mm 0mm"), When::Always,
        "How far from the middle of that surface is the pipe, forward and to the left? Like `120mm -30mm`.",
        "Says how much a tilt of the vehicle matters.",
        "Measure it at the pan; backward and to the right are negative."),
    row("torque_nm.standpipe", Kind::Torque, Some(""), When::Always,
        "With which torque is the standpipe screwed in? Like `1.7Nm`; empty where it is not known.",
        "Printed at the step where it is tightened.",
        "The maker's table of torques."),
    row("torque_nm.check_port", Kind::Torque, Some(""), When::Always,
        "The plug of the check port? Like `40Nm` or `29lbft`; empty where it is not known.",
        "Printed at the step where it is tightened.",
        "The maker's table of torques."),
    row("torque_nm.fill_port", Kind::Torque, Some(""), When::Always,
        "The plug of the fill port? Empty where it is not known.",
        "Printed at the step where it is tightened.",
        "The maker's table of torques."),
    row("before.cooler_bypass", Kind::Yes, Some("no"), When::Always,
        "Must a bypass of the cooler be pinned open for the check, yes or no?",
        "A thermostat valve that sends the fluid past the cooler hides what the cooler takes.",
        "The maker's instruction for checking the level."),
    row("before.started_cold", Kind::Yes, Some("yes"), When::Always,
        "Must the job start from a cold vehicle, yes or no?",
        "A vehicle that starts warm passes the band too fast and unevenly.",
        "The maker's instruction; yes where it says nothing."),
    row("before.selector.positions", Kind::Positions, Some("P R N D"), When::Always,
        "Through which positions is the selector moved? Like `P R N D`; `-` where it is not moved.",
        "Fills the passages of every position.",
        "The maker's instruction for filling."),
    row("before.selector.dwell_s", Kind::Number, Some("3"), When::Selector,
        "How many seconds in each?",
        "Long enough to engage.",
        "The maker's instruction; 3 s where it says nothing (common practice, no source)."),
    row("before.selector.rounds", Kind::Number, Some("2"), When::Selector,
        "How many rounds?",
        "Through all positions so often.",
        "The maker's instruction."),
    row("recheck.days", Kind::Days, Some("3 14"), When::Always,
        "After how many days is the level looked at again? Like `3 14`; `-` for none.",
        "Air leaves the fluid and seals settle in the first days.",
        "Your own practice (common practice, no source)."),
];
