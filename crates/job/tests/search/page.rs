//! The page of all procedures, made from the sheets and from what is said in the good job of each.
//!
//! `docs/procedures.md` is this and nothing else. `BLESS=1 cargo test -p job --test search page` writes it anew; read the
//! difference line by line.

use core::fmt::Write as _;

use events::*;
use job::ACTS;

use super::{Ground, Guard, Input, World, obeys, trade};

const HEAD: &str = "# The procedures of the trade

Made from the sheets in `fixtures/sheets/procedures/` and from the table of acts; a test keeps it true. Every sheet is invented (workshop
\"Quillan Lane\"). **The procedure of the vehicle's maker, local rules and licensed practice come first.** What the parameters mean stands in
[procedure.md](procedure.md), \"Looks\", and in `standpipe sheet template`.

For each procedure: its looks, and a job in which nothing goes wrong. **Below** and **inside** are what the two seats hear; **then** is what
is told, or what happens. All amounts are those of an example that holds 6.5 L and gives 2.4 L at a drain.
";

/// One look in words.
fn look(look: &Look) -> String {
    let engine = match look.engine {
        LookEngine::Idle => "idling",
        LookEngine::Off => "engine off",
        LookEngine::ReadyOff => "ready off",
    };
    let mut parts = vec![engine.to_owned()];
    parts.extend(look.position.as_ref().map(|p| format!("in {p}")));
    match (look.wait_from_s(), look.wait_to_s()) {
        (0, None) => {}
        (from, None) => parts.push(format!("after {from} s")),
        (from, Some(to)) => parts.push(format!("{from} to {to} s after the stop")),
    }
    parts.push(if look.is_gated() { "inside the band" } else { "at any temperature" }.to_owned());
    if look.open == LookOpen::AtLowEdge {
        parts.push("opened from the low edge on".to_owned());
    }
    let rows: Vec<String> =
        look.chart.iter().map(|[c, low, high]| format!("{c} °C: {low} to {high} mm")).collect();
    let sign = match look.mm {
        Some([low, high]) => format!("{} ({low} to {high} mm)", look.right),
        None if !rows.is_empty() => format!("{} ({})", look.right, rows.join(", ")),
        None => look.right.to_string(),
    };
    let add =
        if look.then_add_ml > 0.0 { format!("; then {} mL more", look.then_add_ml) } else { String::new() };
    let again = if look.after_drive { "; once more after the drive" } else { "" };
    format!("{}: right at **{sign}**{add}{again}", parts.join(", "))
}

fn happens(input: Input) -> String {
    match input {
        Input::Tell(_, words) => format!("`{words}`"),
        Input::Fill(ml) => format!("`filled {ml}ml`"),
        Input::Engine(true) => "the engine runs".to_owned(),
        Input::Engine(false) => "the engine is off".to_owned(),
        Input::Want(verdict) => format!("the temperature is right: {verdict}"),
        Input::Wait(seconds) => format!("{seconds} s"),
        other => format!("{other:?}"),
    }
}

/// What is said in a job in which nothing goes wrong, row by row.
fn good_job(ground: &Ground, page: &mut String) {
    let mut world = World::new(ground, Guard::On);
    writeln!(page, "| below | inside | then |\n| --- | --- | --- |").unwrap();
    while let Some(input) = obeys(&world, ground) {
        let says = |seat| world.said.sentence(seat, words::Lang::En, |ml| format!("{} mL", ml.steps()));
        writeln!(page, "| {} | {} | {} |", says(Role::Under), says(Role::Inside), happens(input)).unwrap();
        world = world.after(input, ground).unwrap_or_else(|| panic!("{}: {input:?}", ground.name));
    }
    assert!(world.truth.right && world.truth.ended, "{}: the good job sets the level", ground.name);
}

fn page() -> String {
    let mut page = HEAD.to_owned();
    for ground in trade() {
        let text = std::fs::read_to_string(super::bench::procedure_path(ground.name)).unwrap();
        let what = text.lines().next().unwrap().trim_start_matches("# ");
        let level = &ground.sheet.level;
        writeln!(page, "\n## {}\n\n{what}\n", ground.name).unwrap();
        let geometry =
            format!("rim `{}`, filled from `{}`, drive `{}`", level.rim, level.fill_from, level.drive);
        writeln!(
            page,
            "{}: {geometry}, temperature by `{}`.\n",
            ground.sheet.name, ground.sheet.check.signal
        )
        .unwrap();
        for (place, one) in (1..).zip(ground.sheet.looks()) {
            writeln!(page, "{place}. {}", look(&one)).unwrap();
        }
        writeln!(page).unwrap();
        good_job(&ground, &mut page);
    }
    writeln!(page, "\n## The acts\n").unwrap();
    writeln!(page, "In the order in which they are asked: the first whose turn it is is said, past the guard of [hazards.md](hazards.md).\n").unwrap();
    writeln!(page, "| act | below |\n| --- | --- |").unwrap();
    for act in ACTS {
        writeln!(page, "| {} | {} |", act.name, act.under.says()).unwrap();
    }
    page
}

#[test]
fn the_page_of_procedures_is_what_the_sheets_and_the_good_jobs_say() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/procedures.md");
    let fresh = page();
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(path, &fresh).unwrap();
    }
    let kept = std::fs::read_to_string(path).unwrap_or_default();
    let differs = kept.lines().zip(fresh.lines()).find(|(a, b)| a != b);
    assert!(
        kept == fresh,
        "docs/procedures.md is old, `BLESS=1 cargo test -p job --test search page`: {differs:?}"
    );
}
