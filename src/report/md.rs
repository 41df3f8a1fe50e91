//! The report as text.

use std::fmt::Write as _;

use events::{Request, Sheet};
use units::text::{UnitSystem, show_celsius, show_millilitres, show_newton_metres};
use units::{Celsius, Millilitres, NewtonMetres};

use super::Record;
use super::record::{Quality, StepLine};
use crate::markdown::md;

/// The whole report.
pub fn text(record: &Record, units: UnitSystem) -> String {
    let mut out = String::new();
    // Writing into a String cannot fail.
    let _ = write(&mut out, record, units);
    out
}

fn write(out: &mut String, record: &Record, units: UnitSystem) -> std::fmt::Result {
    let name = record.sheet.as_ref().map_or("unknown vehicle", |s| s.name.as_str());
    writeln!(out, "# Fluid level, job {}: {}\n", record.job, md(name))?;
    writeln!(out, "**{}** {}\n", record.headline(units), record.next(units))?;
    for (what, value) in facts(record, units) {
        writeln!(out, "- {what}: {}", md(&value))?;
    }
    if let Some(result) = &record.result {
        if let Some(level) = &result.level_error {
            writeln!(out, "\n## Level error\n")?;
            writeln!(out, "| cause | mL | standard uncertainty, mL |\n| --- | ---: | ---: |")?;
            for part in &level.causes {
                writeln!(out, "| {} | {:+} | {} |", part.cause.word(), part.millilitres, part.u_millilitres)?;
            }
        }
        if !result.shortfalls.is_empty() {
            writeln!(out, "\n## What was wrong, and what to do\n")?;
            for shortfall in &result.shortfalls {
                writeln!(out, "- {}", shortfall.says())?;
            }
            for cause in &result.closure {
                writeln!(out, "- {}", cause.says())?;
            }
            for open in &result.open {
                writeln!(out, "- {} {}", open.says(), open.remedy())?;
            }
        }
        if !result.means().is_empty() {
            writeln!(out, "\n## What it means\n")?;
            for meaning in result.means() {
                writeln!(out, "- {}", meaning.says())?;
            }
        }
        if let Some(line) = record.untold() {
            writeln!(out, "\n{line}")?;
        }
    }
    writeln!(out, "\n## Steps\n\n| time (UTC) | step | state | by |\n| --- | --- | --- | --- |")?;
    for step in record.steps.iter().filter(|s| s.state != events::StepState::Open) {
        writeln!(out, "| {} | {} | {} | {} |", clock(step.at), step.step, step.state, by(step))?;
    }
    writeln!(out, "\n## What was told\n\n| time (UTC) | by | what |\n| --- | --- | --- |")?;
    for told in &record.told {
        let by = told.by.map_or("", |b| b.word());
        writeln!(out, "| {} | {by} | {} |", clock(told.at), md(&said(&told.request, units)))?;
    }
    if !record.troubles.is_empty() {
        writeln!(out, "\n## On the way\n")?;
        for trouble in &record.troubles {
            writeln!(out, "- {} {}", clock(trouble.at), md(&trouble.what))?;
        }
    }
    if !record.stops.is_empty() {
        writeln!(out, "\n## Stop rules that were shown\n")?;
        for stop in &record.stops {
            writeln!(out, "- {} {}", clock(stop.at), stop.caution.says())?;
        }
    }
    if !record.photos.is_empty() {
        writeln!(out, "\n## Photos\n")?;
        for photo in &record.photos {
            writeln!(out, "- {}: SHA-256 {}", md(&photo.name), md(&photo.sha256))?;
        }
    }
    if let Some(seal) = &record.seal {
        writeln!(out, "\nSeal {}; `standpipe jobs verify {} --seal {}`", md(seal), record.job, short(seal))?;
    }
    if !record.cautions.is_empty() {
        writeln!(out, "\n## Cautions that were shown\n")?;
        for caution in &record.cautions {
            writeln!(out, "- {}", caution.says())?;
        }
    }
    writeln!(out, "\n{}", events::Caution::MakerFirst.says())
}

/// Who brought a step about.
pub fn by(step: &StepLine) -> &'static str {
    match (step.by, step.by_vehicle) {
        (Some(role), _) => role.word(),
        (None, true) => "vehicle",
        (None, false) => "a person",
    }
}

/// As much of a seal as a person compares.
pub fn short(seal: &str) -> &str {
    seal.get(..16).unwrap_or(seal)
}

/// The facts at the head of every form, as label and value.
pub fn facts(record: &Record, units: UnitSystem) -> Vec<(&'static str, String)> {
    let day: String = record.started.to_string().chars().take(10).collect();
    let until = record.ended.map_or("it still runs".to_owned(), |at| format!("to {} UTC", clock(at)));
    let mut facts = vec![("job", format!("{day}, {} {until}", clock(record.started)))];
    if let Some(vehicle) = &record.vehicle {
        facts.push(("vehicle", vehicle.clone()));
    }
    if let Some(first) = record.recheck_of {
        facts.push(("recheck of", comparison(first, record)));
    }
    let complaint = record.result.as_ref().and_then(|r| r.complaint.as_ref());
    let [before, after] = complaint.map(|c| c.says()).unwrap_or_default();
    facts.extend(before.map(|said| ("told before", said)));
    facts.extend(after.map(|said| ("with the level set", said)));
    if let Some(sheet) = &record.sheet {
        let band = (show_celsius(sheet.check.low(), units), show_celsius(sheet.check.high(), units));
        facts.push(("fluid", sheet.fluid.kind.clone()));
        facts.push(("band", format!("{} to {} ({})", band.0, band.1, sheet.check.signal)));
        facts.push(("torques", torques(sheet, units)));
        facts.extend(
            record.sheet_sha256.as_ref().map(|hash| ("vehicle data", format!("SHA-256 {}", short(hash)))),
        );
    }
    if !record.link.is_empty() {
        facts.push(("read through", record.link.clone()));
    }
    facts.push(("readings", quality(record)));
    if let Some(level) = record.result.as_ref().and_then(|r| r.level_error.as_ref()) {
        let text = format!(
            "{:+} mL ± {} mL (k = 2), {:+} mm at the standpipe; positive is too much",
            level.millilitres, level.expanded_millilitres, level.millimetres
        );
        facts.push(("level error", text));
    }
    if let Some(balance) = &record.balance {
        facts.push(("balance", self::balance(balance, units)));
    }
    if let Some(result) = &record.result {
        let days: Vec<String> =
            result.recheck_due.iter().map(|at| at.to_string().chars().take(10).collect()).collect();
        if !days.is_empty() {
            facts.push(("recheck due", days.join(", ")));
        }
    }
    facts
}

/// A recheck beside the job it refers to.
fn comparison(first: u64, record: &Record) -> String {
    let Some(c) = &record.comparison else { return format!("job {first}; the two cannot be compared") };
    let judged = if c.agrees { "within what both are known to" } else { "more than both are known to" };
    format!(
        "job {first}: left {:+} mL, found {:+} mL, changed by {:+} ± {} mL, {judged}",
        c.left_millilitres, c.found_millilitres, c.change_millilitres, c.expanded_millilitres
    )
}

/// How good the readings were.
fn quality(record: &Record) -> String {
    let q = &record.quality;
    if record.people {
        return told(q);
    }
    let mut text = format!("{}, at most {} ms old when they came", q.readings, q.age_ms);
    if q.pauses > 0 {
        text +=
            &format!("; {} pauses of more than 5 s, the longest {:.0} s", q.pauses, q.longest_pause_seconds);
    }
    if q.losses > 0 {
        text += &format!("; adapter or vehicle lost {} times", q.losses);
    }
    if q.restarts > 0 {
        text += &format!("; program started again {} times", q.restarts);
    }
    if let Some(u) = q.u_at_closing {
        text += &format!("; known to {:.1} °C at closing", u.to_f64());
    }
    text
}

/// The same where people told them.
fn told(q: &Quality) -> String {
    let mut text = format!("{}, told by people", q.readings);
    if q.pauses > 0 {
        text += &format!(", at most {:.0} s apart", q.longest_pause_seconds);
    }
    if q.restarts > 0 {
        text += &format!("; program started again {} times", q.restarts);
    }
    if let Some(u) = q.u_at_closing {
        text += &format!("; known to {:.1} °C at closing", u.to_f64());
    }
    text
}

fn torques(sheet: &Sheet, units: UnitSystem) -> String {
    let Some(torque) = &sheet.torque_nm else { return "as the vehicle's maker specifies".to_owned() };
    let show = |what: &str, value: Option<f64>| {
        value.map(|v| format!("{what} {}", show_newton_metres(NewtonMetres::clamped(v), units)))
    };
    let parts = [
        show("standpipe", torque.standpipe),
        show("check port", torque.check_port),
        show("fill port", torque.fill_port),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

fn balance(balance: &events::Balance, units: UnitSystem) -> String {
    let part =
        |what: &str, v: Option<Millilitres>| v.map(|v| format!("{what} {}", show_millilitres(v, units)));
    let closure = match (balance.closure_millilitres, balance.closure_u_millilitres) {
        (Some(c), Some(u)) => Some(format!("closes to {c:+} mL (standard uncertainty {u} mL)")),
        _ => None,
    };
    let parts = [
        part("drained", balance.drained_millilitres),
        part("filled", balance.filled_millilitres),
        part("ran out", balance.ran_out_millilitres),
        part("taken out with parts", balance.taken_out_millilitres),
        part("spilled", balance.spilled_millilitres),
        part("kept", balance.kept_millilitres),
        part("expected to run out", balance.expected_run_out_millilitres),
        closure,
        balance.fresh_percent.map(|p| format!("{p} % fresh")),
        part("waste oil", balance.waste_millilitres),
    ];
    let all: Vec<String> = parts.into_iter().flatten().collect();
    format!("{} (at {})", all.join(", "), show_celsius(balance.reference_celsius, units))
}

/// What was told, for people.
pub fn said(request: &Request, units: UnitSystem) -> String {
    let at = |celsius: &Option<Celsius>| {
        celsius.map_or(String::new(), |t| format!(" at {}", show_celsius(t, units)))
    };
    match request {
        Request::Confirm { what } => format!("confirmed: {what}"),
        Request::Level { pitch_degrees, roll_degrees } => {
            format!("measured: pitch {pitch_degrees:+.2}°, roll {roll_degrees:+.2}°")
        }
        Request::Drained { millilitres, celsius } => {
            format!("drained {}{}", show_millilitres(*millilitres, units), at(celsius))
        }
        Request::Filled { millilitres, celsius } => {
            format!("filled {}{}", show_millilitres(*millilitres, units), at(celsius))
        }
        Request::RanOut { millilitres, celsius } => {
            format!("ran out {}{}", show_millilitres(*millilitres, units), at(celsius))
        }
        Request::Spilled { millilitres, of } => {
            format!("spilled {} of {of}, by eye", show_millilitres(*millilitres, units))
        }
        Request::TakenOut { part, millilitres, celsius } => {
            let how_much = millilitres.map_or("as the sheet says".to_owned(), |v| show_millilitres(v, units));
            format!("taken out with the {part}: {how_much}{}", at(celsius))
        }
        Request::Kept { millilitres } => format!("kept {}", show_millilitres(*millilitres, units)),
        Request::Corners {
            front_left_millimetres: fl,
            front_right_millimetres: fr,
            rear_left_millimetres: rl,
            rear_right_millimetres: rr,
            ..
        } => format!("corners: front {fl} and {fr}, rear {rl} and {rr} mm"),
        Request::Shifted { position } => format!("selector at {position}"),
        Request::Vehicle { text } => format!("vehicle: {text}"),
        Request::Photo { name, .. } => format!("photo: {name}"),
        Request::Recheck { of } => format!("recheck of job {of}"),
        Request::Spot { celsius, surface } => format!("spot {} on {surface}", show_celsius(*celsius, units)),
        Request::Display { celsius } => format!("display {}", show_celsius(*celsius, units)),
        Request::Air { celsius } => format!("outside air {}", show_celsius(*celsius, units)),
        Request::Lamp { shows } => format!("lamp {shows}"),
        Request::Engine { what, rpm } => {
            let at = rpm.map_or(String::new(), |n| format!(" at {n} 1/min"));
            format!("engine {what}{at}")
        }
        Request::Candidate { service, identifier, header } => {
            format!("confirmed as the fluid's: {}", events::place(header, *service, *identifier))
        }
        Request::Leak { how } => format!("leak: {how}"),
        Request::LeakAt { place } => format!("leak at: {place}"),
        Request::Symptom { what } => format!("symptom: {what}"),
        Request::FluidLooks { look } => format!("fluid looks: {look}"),
        Request::Abort { why } => format!("ended by hand: {why}"),
        Request::Note { text } => format!("remark: {text}"),
        other => other.word().replace('-', " "),
    }
}

/// Hours, minutes and seconds of a time.
pub fn clock(at: events::Utc) -> String {
    at.to_string().get(11..19).unwrap_or_default().to_owned()
}
