//! What is asked for a sheet: one row a value, with what it means, where it is found, and what stands where nobody knows it.
//!
//! The rows are data, in the order in which they are asked; how stands in `interview.rs`. A row is asked only where its condition
//! holds. A condition and a guess look only at rows above their own, so that none waits for itself.

use toml::Value;

use crate::answers::Answers;

/// One value.
#[derive(Debug)]
pub struct Question {
    /// Its key in the sheet.
    pub key: &'static str,
    /// What it is called in lists.
    pub label: &'static str,
    /// With which others it is asked.
    pub part: Part,
    /// How an answer is read.
    pub kind: Kind,
    /// What is asked.
    pub asks: &'static str,
    /// What it means.
    pub means: &'static str,
    /// Where a technician finds it.
    pub found: &'static str,
    /// When it is asked.
    pub(crate) when: fn(&Answers) -> bool,
    /// What stands where nobody gave it; none: it is left out.
    pub(crate) guess: fn(&Answers) -> Option<Value>,
}

/// With which others a value is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// First: with these three a sheet can be written.
    First,
    /// How this vehicle's level is looked at.
    Procedure,
    /// What makes the ± smaller.
    Narrower,
    /// What lies ready, and what else is good to know.
    Last,
    /// Few vehicles have it: it is asked where somebody turns to it.
    Rare,
}

/// How an answer is read.
#[derive(Debug, Clone, Copy)]
pub enum Kind {
    /// Words.
    Text,
    /// One of these.
    Choice(&'static [Choice]),
    /// One or two temperatures: `35-45 °C`.
    Band,
    /// A temperature: `30 °C`.
    Temperature,
    /// A range of engine speeds: `550-900`; one is widened by 150 to both sides.
    Idle,
    /// A volume: `6,5 L`.
    Volume,
    /// A surface: `600 cm²`, `30 x 20 cm`.
    Surface,
    /// Two lengths with signs: `120mm -30mm`.
    Place,
    /// A length: `10 mm`.
    Length,
    /// From and to below the edge: `0-5 mm`.
    Depth,
    /// From, and to where it is given: `1-3 min`.
    Wait,
    /// A time: `3 s`.
    Seconds,
    /// A torque: `30 ft-lb`.
    Torque,
    /// An angle: `1.5 deg`.
    Angle,
    /// A number as a control unit counts, `0x4D07` or `7`.
    Number,
    /// A decimal number without a unit.
    Decimal,
    /// Yes or no.
    Yes,
    /// Positions of the selector: `P R N D`; `none`: it is not moved.
    Positions,
    /// Whole days: `3 14`; `none`.
    Days,
    /// Rows of a chart: `20 26-36; 60 38-48`.
    Chart,
    /// Looks in their order: `off, trickle, then 2 L; idle, drips`.
    Looks,
    /// Things, between semicolons.
    List,
    /// Write now, or go on.
    Write,
}

/// One of several answers.
#[derive(Debug)]
pub struct Choice {
    /// Its word in the sheet.
    pub word: &'static str,
    /// What it is, in words.
    pub says: &'static str,
    pub(crate) fits: fn(&Answers) -> bool,
}

const fn choice(word: &'static str, says: &'static str, fits: fn(&Answers) -> bool) -> Choice {
    Choice { word, says, fits }
}

const SIGNALS: &[Choice] = &[
    choice("spot", "a thermometer at the sump, read and typed in by a person", always),
    choice("display", "a number that the vehicle itself shows, told by a person", always),
    choice("lamp", "a lamp of the vehicle with three states, told by a person", always),
    choice("coolant", "the engine's coolant stands in: only where the maker's text gates on it", always),
    choice("fluid", "a control unit tells it, and you know the identifier", always),
];
const RIMS: &[Choice] = &[
    choice("pipe", "an overflow pipe stands in the sump, behind a plug", always),
    choice("job-pipe", "a pipe is screwed in for the job only", always),
    choice("side-hole", "a hole in the side shows it; it is filled elsewhere", always),
    choice("fill-hole", "the lower edge of the hole that it is filled through", always),
    choice("gauge", "a loose gauge in a sealed tube, read by a chart", always),
    choice("none", "nothing shows it: a stated amount is filled", always),
];
const FILLED: &[Choice] = &[
    choice("upper-port", "from above, through a fill port of its own", always),
    choice("check-port", "from below, with hose and pump, through the check port", |a| {
        !a.is("level.rim", &["gauge"])
    }),
    choice("level-hole", "through the hole that shows the level", |a| a.is("level.rim", HOLES)),
    choice("gauge-tube", "through the tube of the gauge", |a| a.is("level.rim", &["gauge"])),
];
const OPENS: &[Choice] = &[
    choice("pipe", "the pipe is taken out", |a| a.is("level.rim", &["pipe"])),
    choice("plug", "a drain plug of its own", always),
    choice("pan", "the pan comes off", always),
    choice("suction", "it is drawn out", always),
];
const ENGINES: &[Choice] = &[
    choice("idle", "it idles", always),
    choice("off", "it is off", always),
    choice("ready-off", "it is off, and could start by itself: hybrid, electric", always),
];
const GATES: &[Choice] =
    &[choice("band", "yes, inside the band", always), choice("none", "no, at any temperature", always)];
const SIGNS: &[Choice] = &[
    choice("trickle", "what runs out has become a thin thread", streams),
    choice("first-drips", "opened at the low edge; drips begin before the high one", streams),
    choice("drips", "it only drips", streams),
    choice("lower-edge", "the fluid stands at the lower edge of the hole", |a| !streams(a)),
    choice("below-edge-mm", "it stands so many millimetres below the edge", |a| !streams(a)),
];
const DRIVES: &[Choice] = &[
    choice("engine", "an engine that runs while it is told to", |a| !a.is("look.engine", &["ready-off"])),
    choice("engine-at-will", "an engine that may start and stop by itself", always),
    choice("none", "no engine", |a| !a.is("look.engine", &["idle"])),
];
const STANDS: &[Choice] = &[
    choice("either", "as it comes", always),
    choice("raised", "on stands or a lift, wheels free", always),
    choice("wheels", "on its wheels: drive-on lift or pit", always),
];

const HOLES: &[&str] = &["side-hole", "fill-hole"];
const PIPES: &[&str] = &["pipe", "job-pipe"];

fn always(_: &Answers) -> bool {
    true
}
fn nothing(_: &Answers) -> Option<Value> {
    None
}
fn fluid(a: &Answers) -> bool {
    a.is("check.signal", &["fluid"])
}
fn lamp(a: &Answers) -> bool {
    a.is("check.signal", &["lamp"])
}
fn pipe(a: &Answers) -> bool {
    a.is("level.rim", PIPES)
}
fn hole(a: &Answers) -> bool {
    a.is("level.rim", HOLES)
}
fn gauge(a: &Answers) -> bool {
    a.is("level.rim", &["gauge"])
}
fn seen(a: &Answers) -> bool {
    !a.is("level.rim", &["none"])
}
fn streams(a: &Answers) -> bool {
    pipe(a) || a.is("look.engine", &["idle"])
}
fn selector(a: &Answers) -> bool {
    a.moves_the_selector()
}
fn word(text: &str) -> Option<Value> {
    Some(Value::String(text.to_owned()))
}
fn amount(ml: f64) -> Option<Value> {
    Some(Value::Integer(ml.round() as i64))
}
fn list(words: &[&str]) -> Option<Value> {
    Some(Value::Array(words.iter().map(|w| Value::String((*w).to_owned())).collect()))
}
fn pair(low: f64, high: f64) -> Option<Value> {
    Some(Value::Array(vec![Value::Float(low), Value::Float(high)]))
}
fn whole(n: i64) -> Option<Value> {
    Some(Value::Integer(n))
}
fn decimal(x: f64) -> Option<Value> {
    Some(Value::Float(x))
}

/// A drain brings out two fifths of all.
/// Source: common practice, no source: 30 to 50 %.
const DRAIN_SHARE: f64 = 0.4;
/// All that a unit holds, where nobody knows either.
/// Source: common practice, no source.
const USUAL_TOTAL_ML: f64 = 7_000.0;

#[allow(clippy::too_many_arguments, reason = "a row of the table")]
const fn row(
    key: &'static str,
    label: &'static str,
    part: Part,
    kind: Kind,
    when: fn(&Answers) -> bool,
    guess: fn(&Answers) -> Option<Value>,
    asks: &'static str,
    means: &'static str,
    found: &'static str,
) -> Question {
    Question { key, label, part, kind, asks, means, found, when, guess }
}

/// The key of the looks before the last one: all other keys of a look mean the last.
pub(crate) const BEFORE: &str = "look.before";

/// The key of the question whether to write the sheet now.
pub(crate) const WRITE: &str = "write";

/// Values that no guess may stand in for: with one of them guessed, nobody may begin a job.
pub(crate) const MUST: &[&str] = &[
    "check.band_c",
    "check.lamp.too_cold",
    "check.lamp.right",
    "check.lamp.too_hot",
    "before.mode",
    "look.engine",
    "look.chart",
];

use Part::{First, Last, Narrower, Procedure, Rare};

/// Every value that is asked, in its order.
#[rustfmt::skip]
pub const QUESTIONS: &[Question] = &[
    row("fluid.type", "fluid", First, Kind::Text, always, |_| word("as the vehicle's maker specifies"),
        "Which fluid does the maker ask for?",
        "As on the container. A fluid that only looks alike ruins it.",
        "The maker's table of fluids, or the plate on the transmission."),
    row("check.band_c", "band", First, Kind::Band, always, |_| pair(35.0, 45.0),
        "Between which temperatures is the level right?",
        "Outside this band the level must not be set.",
        "The maker's text on checking the fluid level. Nobody can guess it."),
    row("fluid.drain_ml", "a drain brings out", First, Kind::Volume, always,
        |a| amount(a.given_number("fluid.total_ml").unwrap_or(USUAL_TOTAL_ML) * DRAIN_SHARE),
        "How much came out the last time?",
        "So much is filled again. `nothing` if nobody has measured it.",
        "Last time's measuring jug, or \"service fill\" in the maker's text."),

    row("check.signal", "temperature by", Procedure, Kind::Choice(SIGNALS), always, |_| word("spot"),
        "How will you know the temperature of the fluid?",
        "Everything waits for this temperature. `?` says what each one costs.",
        "Most vehicles have an identifier: `standpipe find` looks for it. Until it is found, take one of the others."),
    row("identifier.service", "identifier: service", Procedure, Kind::Number, fluid, |_| whole(0x22),
        "Which reading service carries the temperature: 0x22 or 0x21?",
        "Only reading services are ever sent.",
        "`standpipe find`, or the maker's description of the control unit."),
    row("identifier.id", "identifier: number", Procedure, Kind::Number, fluid, |_| whole(0),
        "Which identifier?",
        "The number that is asked for.",
        "`standpipe find`, or the maker's description of the control unit."),
    row("identifier.header", "identifier: address", Procedure, Kind::Text, fluid, |_| word("7E1"),
        "At which address does the control unit listen?",
        "The address of the request, hex digits.",
        "`standpipe probe` lists the control units that answer."),
    row("identifier.byte", "identifier: first byte", Procedure, Kind::Number, fluid, |_| whole(0),
        "Which byte of the answer is the first of the value?",
        "Counted from 0, after the identifier.",
        "`standpipe find`, or the maker's description."),
    row("identifier.length", "identifier: bytes", Procedure, Kind::Number, fluid, |_| whole(1),
        "How many bytes has the value, 1 to 4?",
        "The length of the value.",
        "`standpipe find`, or the maker's description."),
    row("identifier.scale", "identifier: °C a count", Procedure, Kind::Decimal, fluid, |_| decimal(1.0),
        "How many °C is one count?",
        "Value = count × scale + offset.",
        "`standpipe find`, or two readings beside a thermometer."),
    row("identifier.offset", "identifier: °C at 0", Procedure, Kind::Decimal, fluid, |_| decimal(-40.0),
        "How many °C is count 0?",
        "Value = count × scale + offset.",
        "`standpipe find`, or a thermometer on a cold vehicle."),
    row("check.lamp.too_cold", "lamp, too cold", Procedure, Kind::Text, lamp, |_| word("not known yet: too cold"),
        "How does the lamp look while it is too cold?",
        "In the maker's words; the one inside reads them.",
        "The maker's text on checking the fluid level."),
    row("check.lamp.right", "lamp, right", Procedure, Kind::Text, lamp, |_| word("not known yet: right"),
        "How does the lamp look while it is right?",
        "In the maker's words; the one inside reads them.",
        "The maker's text on checking the fluid level."),
    row("check.lamp.too_hot", "lamp, too hot", Procedure, Kind::Text, lamp, |_| word("not known yet: too hot"),
        "How does the lamp look while it is too hot?",
        "In the maker's words; the one inside reads them.",
        "The maker's text on checking the fluid level."),
    row("before.mode", "service mode", Procedure, Kind::Text, lamp, |_| word("not known yet"),
        "How is the mode switched on in which the lamp shows it?",
        "The lamp means the fluid in that mode only.",
        "The maker's text on checking the fluid level."),
    row("level.rim", "the level shows at", Procedure, Kind::Choice(RIMS), always, |_| word("pipe"),
        "Where does the level show itself?",
        "The whole procedure hangs on it.",
        "The maker's drawing of the sump, or a look from below."),
    row("level.fill_from", "filled from", Procedure, Kind::Choice(FILLED), always,
        |a| word(match a.word("level.rim").as_str() { "fill-hole" => "level-hole", "gauge" => "gauge-tube", _ => "upper-port" }),
        "From where is it filled?",
        "Says what is opened first, and when.",
        "The maker's text on filling."),
    row("level.sump_opens", "the old fluid leaves by", Procedure, Kind::Choice(OPENS), always,
        |a| word(if a.is("level.rim", &["pipe"]) { "pipe" } else { "plug" }),
        "How does the old fluid leave?",
        "Says what is opened and tightened at the drain.",
        "The maker's text on draining."),
    row("look.engine", "engine at the look", Procedure, Kind::Choice(ENGINES), hole, |_| word("idle"),
        "What does the engine do while the level is looked at?",
        "Idling or not moves the level by litres.",
        "The maker's text on checking the fluid level."),
    row("look.gate", "waits for the band", Procedure, Kind::Choice(GATES), |a| hole(a) && !streams(a), |_| word("band"),
        "Must the fluid have a certain temperature then?",
        "Without it the level is looked at any time.",
        "The maker's text on checking the fluid level."),
    row("look.right", "right is", Procedure, Kind::Choice(SIGNS), |a| pipe(a) || hole(a),
        |a| word(if streams(a) { "trickle" } else { "lower-edge" }),
        "When is the level right?",
        "The sign at which the port is closed.",
        "The maker's text on checking the fluid level."),
    row("look.mm", "below the edge", Procedure, Kind::Depth, |a| a.is("look.right", &["below-edge-mm"]), |_| pair(0.0, 5.0),
        "How far below the edge is right?",
        "From the edge down, the smaller one first.",
        "The maker's text on checking the fluid level."),
    row("look.chart", "chart of the gauge", Procedure, Kind::Chart, gauge,
        |_| Some(Value::Array([[15.0, 10.0, 20.0], [100.0, 40.0, 50.0]].iter().map(|r| Value::Array(r.iter().map(|x| Value::Float(*x)).collect())).collect())),
        "What does the gauge show when it is right?",
        "°C, then from and to in millimetres; one row a temperature.",
        "The chart in the maker's text."),
    row("look.ml_per_mm", "a millimetre of the gauge", Procedure, Kind::Volume, gauge, |_| whole(20),
        "How much fluid is one millimetre of the gauge?",
        "Turns the reading into an amount.",
        "The maker's text; or fill a little and read again."),
    row("fluid.total_ml", "all of it", Procedure, Kind::Volume, always,
        |a| amount((a.given_number("fluid.drain_ml").filter(|ml| *ml > 0.0).unwrap_or(USUAL_TOTAL_ML * DRAIN_SHARE) / DRAIN_SHARE).clamp(200.0, 25_000.0)),
        "How much fluid is in it altogether?",
        "All of it grows with temperature, converter and cooler too.",
        "\"Capacity, dry\" or \"after overhaul\" in the maker's text."),

    row(WRITE, "", Procedure, Kind::Write, always, nothing,
        "Write the sheet now, or go on?",
        "It can be used now. Each further answer makes it better.",
        "`write`, or `go on`. You can come back at any time."),

    row("fluid.margin_ml", "the extra", Narrower, Kind::Volume, always,
        |a| whole(if pipe(a) && !a.is("look.right", &["first-drips"]) { 470 } else if a.is("level.rim", &["side-hole"]) && streams(a) { 200 } else { 0 }),
        "How much is filled beyond what came out?",
        "It runs out again and shows that there is enough.",
        "The maker's text; half a litre is usual (common practice, no source)."),
    row("check.idle_rpm", "idle", Narrower, Kind::Idle, always, |_| Some(Value::Array(vec![Value::Integer(550), Value::Integer(950)])),
        "How fast does the engine idle, in 1/min?",
        "Outside this range nothing is set.",
        "The rev counter of the warm engine; one number will do."),
    row("standpipe.surface_m2", "free surface", Narrower, Kind::Surface, seen, |_| decimal(0.05),
        "How large is the fluid's surface at that height?",
        "Turns millimetres into millilitres.",
        "Length times width of the pan, less what stands in it."),
    row("standpipe.offset_mm", "place on the surface", Narrower, Kind::Place, seen, |_| pair(120.0, 0.0),
        "How far is it from the middle, forward and to the left?",
        "Says how much a tilt of the vehicle matters.",
        "A rule at the pan; backward and to the right are negative."),
    row("standpipe.bore_mm", "bore", Narrower, Kind::Length, seen, |a| decimal(if pipe(a) { 10.0 } else { 16.0 }),
        "How wide is its opening?",
        "Says how fast it runs out.",
        "A rule or a drill across the opening."),
    row("standpipe.rim_mm", "wall", Narrower, Kind::Length, seen, |a| decimal(if pipe(a) { 1.5 } else { 2.0 }),
        "How thick is its wall?",
        "A film stands above it.",
        "A rule at the rim."),
    row("standpipe.length_mm", "length", Narrower, Kind::Length, seen, |a| decimal(if pipe(a) { 60.0 } else { 15.0 }),
        "How long is it?",
        "What stands in it runs out first.",
        "A rule beside it when it is out."),
    row("before.selector.positions", "selector", Narrower, Kind::Positions, always, |_| list(&["P", "R", "N", "D"]),
        "Through which positions is the selector moved?",
        "Fills the passages of every position.",
        "The maker's text on filling; `none` where it is not moved."),
    row("before.selector.dwell_s", "seconds in each", Narrower, Kind::Seconds, selector, |_| whole(3),
        "How long in each?",
        "Long enough to engage.",
        "The maker's text; 3 s is usual (common practice, no source)."),
    row("before.selector.rounds", "rounds", Narrower, Kind::Number, selector, |_| whole(2),
        "How many rounds?",
        "Through all positions so often.",
        "The maker's text on filling."),
    row("look.position", "selector at the look", Narrower, Kind::Text, |a| seen(a) && selector(a), nothing,
        "Where does the selector stand at the look?",
        "The first position where nothing is said.",
        "The maker's text on checking the fluid level."),
    row("look.wait_s", "wait before the look", Narrower, Kind::Wait, seen, nothing,
        "How long is it left before the look, from and to?",
        "Since the rounds ended, or since the engine stopped.",
        "The maker's text on checking the fluid level."),
    row(BEFORE, "looks before it", Rare, Kind::Looks, |a| pipe(a) || hole(a), nothing,
        "Which looks come before that one, in their order?",
        "Each has an engine, a sign, and may be followed by an amount.",
        "The maker's text; most have one look only: `none`."),
    row("level.drive", "driven by", Narrower, Kind::Choice(DRIVES), always,
        |a| word(if a.is("look.engine", &["ready-off"]) { "engine-at-will" } else { "engine" }),
        "What drives the vehicle?",
        "An engine that starts by itself is a danger to hands.",
        "You know it."),
    row("before.cooler_bypass", "cooler bypass pinned", Narrower, Kind::Yes, always, |_| Some(Value::Boolean(false)),
        "Must a bypass of the cooler be pinned open?",
        "A closed one hides what the cooler takes.",
        "The maker's text on checking the fluid level."),
    row("before.started_cold", "starts cold", Narrower, Kind::Yes, always, |_| Some(Value::Boolean(true)),
        "Must the job start from a cold vehicle?",
        "A warm one passes the band too fast.",
        "The maker's text; yes where it says nothing."),
    row("check.start_below_c", "starts below", Narrower, Kind::Temperature, always, nothing,
        "Below which temperature must the engine be started?",
        "Some makers want the fluid cooler than a limit first.",
        "The maker's text on checking the fluid level."),
    row("check.single_u_c", "half width", Narrower, Kind::Decimal, |a| a.has_single_band(), |_| decimal(2.0),
        "How far to both sides of it is the level right, in °C?",
        "The maker gives one temperature only.",
        "The maker's text; 2 °C is our own choice."),
    row("check.hot_band_c", "band in hot places", Narrower, Kind::Band, always, nothing,
        "Is there another band for hot places?",
        "Some makers give a second one.",
        "The maker's text on checking the fluid level."),
    row("check.hot_from_air_c", "hot from", Narrower, Kind::Temperature, |a| a.given("check.hot_band_c").is_some(), |_| decimal(32.0),
        "From which outside air on does that band count?",
        "Below it the first band counts.",
        "The maker's text on checking the fluid level."),
    row("stand.on", "stands on", Narrower, Kind::Choice(STANDS), always, |_| word("either"),
        "What does it stand on while the level is looked at?",
        "Some sumps stand otherwise with the wheels free.",
        "The maker's text on checking the fluid level."),
    row("stand.pitch_deg", "nose up", Narrower, Kind::Angle, always, nothing,
        "How far nose up must it stand? 0 is level.",
        "Some makers do not want it level.",
        "The maker's text. Left out, it stands level."),
    row("stand.roll_deg", "left side up", Narrower, Kind::Angle, always, nothing,
        "How far left side up must it stand? 0 is level.",
        "Some makers do not want it level.",
        "The maker's text. Left out, it stands level."),
    row("stand.air_springs", "air springs", Narrower, Kind::Yes, always, |_| Some(Value::Boolean(false)),
        "Has it air springs?",
        "Its body sinks by itself unless its lifting mode is on.",
        "You know it."),
    row("fluid.exchanges", "drained and filled", Narrower, Kind::Number, always, |_| whole(1),
        "How often is it drained and filled in one job?",
        "Each time more of it is fresh.",
        "The maker's text; once is usual."),
    row("fluid.density_15", "density at 15 °C", Narrower, Kind::Decimal, always, |_| decimal(850.0),
        "Which density has the fluid at 15 °C, in kg/m³?",
        "Says how much it grows with temperature.",
        "The data sheet of the fluid."),
    row("fluid.mm2_s_40", "viscosity at 40 °C", Narrower, Kind::Decimal, always,
        |a| decimal(a.given_number("fluid.mm2_s_100").map_or(29.6, |v| (5.0 * v).clamp(5.0, 200.0))),
        "Which viscosity has the fluid at 40 °C, in mm²/s?",
        "Says how it runs out.",
        "The data sheet of the fluid."),
    row("fluid.mm2_s_100", "viscosity at 100 °C", Narrower, Kind::Decimal, always,
        |a| decimal(a.given_number("fluid.mm2_s_40").map_or(5.9, |v| (v / 5.0).clamp(2.0, 40.0))),
        "And at 100 °C?",
        "Says how it runs out.",
        "The data sheet of the fluid."),
    row("fluid.cooler_ml", "in the cooler", Narrower, Kind::Volume, always, nothing,
        "How much do the cooler and its lines hold?",
        "It is filled from the sump when the cooler opens.",
        "The maker's text, where it says it."),

    row("fluid.container_ml", "one container", Last, Kind::Volume, always, |_| whole(1_000),
        "How much does one container of new fluid hold?",
        "Says how many to buy.",
        "The shelf."),
    row("torque_nm.standpipe", "torque, pipe", Last, Kind::Torque, pipe, nothing,
        "With which torque is the pipe screwed in?",
        "Printed where it is tightened.",
        "The maker's table of torques."),
    row("torque_nm.check_port", "torque, check port", Last, Kind::Torque, always, nothing,
        "With which torque the plug of the check port?",
        "Printed where it is tightened.",
        "The maker's table of torques."),
    row("torque_nm.fill_port", "torque, fill port", Last, Kind::Torque, always, nothing,
        "With which torque the plug of the fill port?",
        "Printed where it is tightened.",
        "The maker's table of torques."),
    row("steps.close.tools", "washers", Last, Kind::List, always, nothing,
        "Which new washers and seals are needed?",
        "Printed with what lies ready. Several between semicolons.",
        "The maker's text on closing; measure the old one."),
    row("fluid.filter_ml", "in the filter", Last, Kind::Volume, always, nothing,
        "How much does the old filter take along?",
        "Only where it is changed. So much more is filled.",
        "Weigh the old one and the new one."),
    row("steps.drain.tools", "tools", Last, Kind::List, always, nothing,
        "Which tools and key sizes are needed?",
        "Printed with what lies ready. Several between semicolons.",
        "The maker's text; a look from below."),
    row("access", "taken off first", Last, Kind::List, always, nothing,
        "What must come off to get there?",
        "You are reminded to put it back. Several between semicolons.",
        "A look from below."),
    row("steps.drain.note", "note", Last, Kind::Text, always, nothing,
        "What else should the next one know?",
        "Printed at the drain.",
        "Your own words."),
    row("name", "name", Last, Kind::Text, always, Answers::stem,
        "What do people call this kind of vehicle?",
        "For lists and reports; no single vehicle's plate.",
        "Your own words: transmission and installation."),
    row("recheck.days", "looked at again", Last, Kind::Days, always, |_| Some(Value::Array(vec![Value::Integer(3), Value::Integer(14)])),
        "After how many days is the level looked at again?",
        "Air leaves the fluid in the first days.",
        "Your own practice (common practice, no source)."),
];
