//! The table of hazards: each row that is a guard is a rule, and each rule is seen to forbid and to let go.
//!
//! `fixtures/reference/trade/hazards.csv` is the table; `docs/hazards.md` says what became of the rows that are no rule.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::expect_used,
    reason = "test code"
)]

use events::{Advice as A, Alarm, Precondition, Role, SeatAdvice, Verdict};
use job::{Clear, Motor, Port, RULES, Short, Situation, Stage, guarded, harms};

/// The fields of a line, with quotes.
fn fields(line: &str) -> Vec<String> {
    let (mut out, mut quoted) = (vec![String::new()], false);
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => out.push(String::new()),
            c => out.last_mut().unwrap().push(c),
        }
    }
    out
}

/// Id and kind of every row.
fn rows() -> Vec<(String, String)> {
    let table = include_str!("../../../fixtures/reference/trade/hazards.csv");
    let row = |line: &str| {
        let fields = fields(line);
        (fields[0].clone(), fields[2].clone())
    };
    table.lines().skip(1).map(row).collect()
}

/// Everything was told, everything is done, the engine idles: nothing harms.
fn fine() -> Situation {
    Situation {
        stage: Stage::Running,
        changes: true,
        pipe: true,
        upper_port: true,
        selector: true,
        stands: true,
        level: true,
        exhaust: true,
        parked: true,
        clear: Clear::Yes,
        brake: true,
        cycled: true,
        fill_port: true,
        fluid_right: true,
        pipe_in: true,
        closed_up: true,
        motor: Motor::Running,
        drained: true,
        filled: true,
        circulated: true,
        ..Situation::default()
    }
}

fn off() -> Situation {
    Situation { motor: Motor::Stopped, circulated: false, ..fine() }
}

fn open(port: Port) -> Situation {
    Situation { port, ..fine() }
}

/// A row, the state in which it holds, what must never be said then and to whom, and the state that frees it.
type Case = (&'static str, Situation, A, Role, Situation);

#[rustfmt::skip]
fn cases() -> Vec<Case> {
    use Role::{Inside as I, Under as U};
    let (f, o) = (fine(), off());
    vec![
        ("dizzy",                Situation { alarm: Some(Alarm::Air), ..open(Port::Stream) },    A::ClosePort,   U, open(Port::Trickle)),
        ("fire-told",            Situation { alarm: Some(Alarm::Fire), ..open(Port::Stream) },   A::ClosePort,   U, open(Port::Trickle)),
        ("caught-told",          Situation { alarm: Some(Alarm::Caught), ..f },                  A::KeepIdling,  I, f),
        ("burn-told",            Situation { alarm: Some(Alarm::Burn), ..f },                    A::OpenPort,    U, f),
        ("hot-open",             Situation { overheating: true, ..f },                           A::OpenPort,    U, f),
        ("overheat-go-on",       Situation { overheating: true, ..open(Port::Stream) },          A::WatchStream, U, open(Port::Stream)),
        ("stop-while-open",      open(Port::Stream),                                             A::StopEngine,  I, f),
        ("engine-stops-open",    Situation { motor: Motor::Stopped, ..open(Port::Stream) },      A::WatchStream, U, open(Port::Stream)),
        ("stream-endless",       Situation { endless: true, ..open(Port::Stream) },              A::WatchStream, U, open(Port::Stream)),
        ("drip-open-end",        open(Port::Trickle),                                            A::WatchStream, U, open(Port::Stream)),
        ("wrong-fluid-in",       Situation { wrong_in: true, ..o },                              A::StartEngine, I, o),
        ("no-drive-after-start", Situation { no_drive: true, ..f },                              A::CycleSelector, I, f),
        ("fluid-on-exhaust",     Situation { wet: true, ..f },                                   A::KeepIdling,  I, f),
        ("known-short-running",  Situation { short: Short::Much, ..f },                          A::FillMore,    U, f),
        ("drained-start",        Situation { short: Short::Some, ..o },                          A::StartEngine, I, Situation { short: Short::Vessels, ..o }),
        ("overfill-foam",        Situation { too_much: true, ..o },                              A::StartEngine, I, o),
        ("charger-spark",        Situation { low_volts: true, ..f },                             A::OpenPort,    U, f),
        ("open-engine-off",      Situation { motor: Motor::Stopped, ..f },                       A::OpenPort,    U, f),
        ("below-silent",         Situation { silent_below: true, ..open(Port::Stream) },         A::KeepIdling,  I, open(Port::Stream)),
        ("support-moved",        Situation { stands: false, lowered: true, ..f },                A::OpenPort,    U, f),
        ("jack-only",            Situation { stands: false, ..o },                               A::Drain,       U, o),
        ("shims-with-person",    Situation { level_refused: true, ..f },                         A::ShimStands,  U, Situation { level_refused: true, ..o }),
        ("wheels-spin",          Situation { cycled: false, ..f },                               A::BeReady,     U, f),
        ("chocks-missing",       Situation { parked: false, ..o },                               A::Drain,       U, o),
        ("clear-by-other",       Situation { clear: Clear::WrongSeat, ..o },                     A::StartEngine, I, o),
        ("jump-below",           Situation { clear: Clear::StartFailed, ..o },                   A::StartEngine, I, o),
        ("clear-stale",          Situation { clear: Clear::Old, ..f },                           A::CycleSelector, I, f),
        ("start-below",          Situation { clear: Clear::No, ..o },                            A::StartEngine, I, Situation { clear: Clear::No, alone: true, ..o }),
        ("selector-below",       Situation { clear: Clear::No, ..f },                            A::CycleSelector, I, f),
        ("lower-on-person",      Situation { clear: Clear::No, set: true, ..f },                 A::TestDrive,   I, Situation { set: true, ..f }),
        ("selector-wheels-down", Situation { wheels: true, brake: false, ..f },                  A::CycleSelector, I, Situation { wheels: true, ..f }),
        ("brake-let-go",         Situation { brake: false, ..f },                                A::CycleSelector, I, f),
        ("exhaust-inside",       Situation { exhaust: false, ..o },                              A::StartEngine, I, o),
        ("long-idle",            Situation { exhaust_due: true, ..f },                           A::BeReady,     U, f),
        ("ready-on",             Situation { at_will: true, ..o },                               A::Drain,       U, Situation { at_will: true, ready_off: true, ..o }),
        ("stop-start",           Situation { at_will: true, ..f },                               A::OpenPort,    U, Situation { at_will: true, mode_on: true, ..f }),
        ("lamp-other-meaning",   Situation { lamp: true, ..f },                                  A::OpenPort,    U, Situation { lamp: true, mode_on: true, ..f }),
        ("drained-drive",        Situation { short: Short::Vessels, torqued: true, ..o },        A::TestDrive,   I, Situation { short: Short::Vessels, set: true, ..o }),
        ("gush-flow",            Situation { gush: true, ..f },                                  A::Tighten,     U, f),
        ("no-fill-before-drain", Situation { fill_port: false, drained: false, ..o },            A::Drain,       U, o),
        ("wrong-fluid",          Situation { fluid_right: false, ..o },                          A::Fill,        U, o),
        ("hot-drain",            Situation { hot: true, ..o },                                   A::Drain,       U, o),
        ("pipe-torque-late",     f,                                                              A::PutPipeIn,   U, Situation { awaits_fill: true, ..f }),
        ("pipe-left-out",        Situation { pipe_in: false, ..o },                              A::Fill,        U, o),
        ("portions-endless",     Situation { needs_more: true, portions_done: true, ..o },       A::FillMore,    U, Situation { needs_more: true, ..o }),
        ("tilt-eye-after",       Situation { level_refused: true, ..f },                         A::OpenPort,    U, f),
        ("warm-start",           Situation { warm: true, ..f },                                  A::OpenPort,    U, f),
        ("pin-late",             Situation { pin: true, ..o },                                   A::StartEngine, I, Situation { pin: true, pin_in: true, ..o }),
        ("fill-plug-out",        Situation { closed_up: false, ..f },                            A::CycleSelector, I, f),
        ("tray-hose-left",       Situation { closed_up: false, filled: false, ..o },             A::StartEngine, I, Situation { filled: false, ..o }),
        ("pin-left",             Situation { pin: true, pin_in: true, set: true, ..f },          A::TestDrive,   I, Situation { pin: true, pin_in: true, pin_out: true, set: true, ..f }),
        ("wheel-nuts",           Situation { access: true, wheel_off: true, set: true, ..f },    A::TestDrive,   I, Situation { access: true, wheel_off: true, refitted: true, set: true, ..f }),
        ("covers-off",           Situation { access: true, set: true, ..f },                     A::TestDrive,   I, Situation { access: true, refitted: true, set: true, ..f }),
        ("solo-hands",           Situation { alone: true, ..f },                                 A::WaitForClear, I, f),
    ]
}

#[test]
fn every_rule_forbids_where_its_row_holds_and_lets_go_where_it_is_freed() {
    let cases = cases();
    for (id, holds, never, seat, freed) in &cases {
        let found = harms(holds, *never, *seat).map(|rule| rule.id);
        assert_eq!(found, Some(*id), "`{never}` to {seat}");
        assert_eq!(harms(freed, *never, *seat).map(|rule| rule.id), None, "{id}: `{never}` is free again");
        // Whatever was wanted, what is said in its place harms nobody.
        let said = guarded(holds, SeatAdvice::to(*never, *never));
        for seat in [Role::Under, Role::Inside] {
            assert_eq!(harms(holds, said.at(seat), seat).map(|rule| rule.id), None, "{id}: {said:?}");
        }
    }
    let tested: Vec<&str> = cases.iter().map(|case| case.0).collect();
    let rules: Vec<&str> = RULES.iter().map(|rule| rule.id).collect();
    assert_eq!(tested, rules, "one case for each rule, in their order");
}

#[test]
fn hands_at_a_gauge_are_kept_from_a_vehicle_that_may_roll_from_bad_air_and_from_heat() {
    let f = Situation { gauge: true, upper_port: false, pipe: false, ..fine() };
    let cases = [
        ("wheels-spin", Situation { moving: true, ..f }),
        ("wheels-spin", Situation { cycled: false, ..f }),
        ("chocks-missing", Situation { parked: false, ..f }),
        ("long-idle", Situation { exhaust_due: true, ..f }),
        ("overheat-go-on", Situation { overheating: true, ..f }),
        ("stop-start", Situation { at_will: true, ..f }),
    ];
    for advice in [A::ReadGauge, A::ReadAgain, A::DrawOut] {
        assert_eq!(harms(&f, advice, Role::Under).map(|rule| rule.id), None, "{advice}");
        // Nobody lies below: no stands are needed for it.
        let on_wheels = Situation { stands: false, ..f };
        assert_eq!(harms(&on_wheels, advice, Role::Under).map(|rule| rule.id), None, "{advice}");
        for (id, holds) in &cases {
            assert_eq!(harms(holds, advice, Role::Under).map(|rule| rule.id), Some(*id), "{advice}");
        }
    }
}

/// What the shortcut of a bay without a job rests on.
#[test]
fn where_no_job_was_begun_no_row_speaks_but_for_a_danger() {
    for verdict in [Verdict::Wait, Verdict::Go, Verdict::TooHot] {
        let at = Situation { verdict, ..Situation::default() };
        assert_eq!(guarded(&at, job::wanted(&at)), job::wanted(&at), "{verdict:?}");
    }
    let told = Situation { alarm: Some(Alarm::Air), ..Situation::default() };
    let said = guarded(&told, job::wanted(&told));
    assert_eq!((said.at(Role::Under), said.at(Role::Inside)), (A::FreshAir, A::FreshAir));
}

#[test]
fn every_row_of_the_table_is_a_rule_or_has_its_line_on_the_page() {
    let page = include_str!("../../../docs/hazards.md");
    let rows = rows();
    assert_eq!(rows.len(), 103);
    for (id, kind) in &rows {
        let rule = RULES.iter().any(|rule| rule.id == id);
        assert!(!rule || kind != "report", "{id} is a rule and the table says {kind}");
        let line = page.lines().any(|line| line.starts_with(&format!("| {id} |")));
        assert!(rule != line, "{id} ({kind}): a rule, or a line of docs/hazards.md, and not both");
    }
    for rule in RULES {
        assert!(rows.iter().any(|(id, _)| id == rule.id), "{} is no row of the table", rule.id);
    }
}

/// Where the words of a row are, by some of them.
#[rustfmt::skip]
const SAID: &[(&str, &str)] = &[
    ("floor-soft",          "hard level floor, shaken, firm"),
    ("air-springs",         "Lifting mode on"),
    ("brake-cable-off",     "parking brake on and holding"),
    ("pedal-below",         "Foot off the accelerator, touch nothing"),
    ("belts-below",         "Keep hair and sleeves off belts"),
    ("raise-running",       "nobody below while it moves"),
    ("lift-inside",         "get out. Raise it, lower it onto the locks"),
    ("person-in-lifted-car", "Sit down before the other goes below"),
    ("fan-key-off",         "The fan may start by itself"),
    ("idle-shut-off",       "It stopped by itself before, after so long"),
    ("pipe-left-in",        "was the pipe out? Put it back in"),
    ("orange-cables",       "Orange is high voltage"),
    ("exhaust-touch",       "Fluid, pan and exhaust are hot"),
    ("eye-under-port",      "from the side. Glasses on"),
    ("cleaner-hot",         "spray only cold"),
    ("skin-oil",            "wash with soap"),
    ("waste-mixed",         "in its own container"),
    ("doors-only",          "open doors are not enough"),
    ("pit-gas",             "Out of a pit"),
    ("drained-rolled",      "driven wheels off the ground"),
    ("pipe-overtight",      "Too tight, it cracks"),
    ("cool-by-drive",       "Let it cool, then idle again"),
    ("dirt-in",             "Wipe around the plug first"),
    ("old-back-in",         "New fluid only"),
    ("old-washer",          "The new washer goes on the plug"),
    ("burnt-fluid",         "Black, burnt, metal in it"),
    // lines of the report
    ("drained-left",        "It must not be driven"),
    ("drivable-unsaid",     "moved in the workshop only"),
    ("leak-hidden",         "Mend it first"),
    ("symptom-other",       "the symptom has another cause"),
    ("ledger-low",          "Only the first gush came out"),
    ("sensor-blamed",       "not known yet which is wrong"),
    ("set-then-filled",     "not opened while the verdict was `go`"),
    ("wide-but-set",        "probably right"),
    ("recheck-undated",     "cold"),
];

#[test]
fn every_row_that_is_said_has_its_sentence() {
    let mut sheet =
        events::Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
    sheet.stand.air_springs = true;
    sheet.level.drive = events::Drive::EngineAtWill;
    let mut all: Vec<String> = A::ALL.iter().map(|w| w.says().to_owned()).collect();
    all.extend(events::Caution::ALL.iter().map(|w| w.says().to_owned()));
    all.extend(Precondition::ALL.iter().map(|w| w.says().to_owned()));
    all.extend(events::Shortfall::ALL.iter().map(|w| w.says().to_owned()));
    all.extend(events::Meaning::ALL.iter().map(|w| w.says().to_owned()));
    all.extend(events::Outcome::ALL.iter().map(|w| w.says().to_owned()));
    all.extend(events::Drivable::ALL.iter().map(|w| w.says().to_owned()));
    // Those of the checklist that this vehicle's steps have.
    let lines = job::procedure(&sheet).into_iter().flat_map(|card| card.lines);
    all.extend(lines.filter_map(|line| match line {
        job::CheckPoint::Hint(hint) => Some(hint.says().to_owned()),
        _ => None,
    }));
    let page = include_str!("../../../docs/hazards.md");
    for (id, words) in SAID {
        assert!(all.iter().any(|says| says.contains(words)), "{id}: nobody says `{words}`");
        let line = page.lines().find(|line| line.starts_with(&format!("| {id} |")));
        assert!(
            line.is_some_and(|line| line.contains("said") || line.contains("report")),
            "{id} on the page"
        );
    }
    for (id, kind) in rows() {
        let known = SAID.iter().any(|(said, _)| *said == id);
        let line = page.lines().find(|line| line.starts_with(&format!("| {id} |"))).unwrap_or_default();
        let rule = RULES.iter().any(|rule| rule.id == id);
        assert!(
            rule || kind == "guard" || known || line.contains("not built"),
            "{id}: {kind}, and neither said nor answered"
        );
    }
}
