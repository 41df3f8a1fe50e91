//! Asks for a new sheet, value by value, and writes it.
//!
//! In: lines of answers, from a person or a file. Out: a sheet's file with a remark beside each value. An answer that
//! cannot be is said so and asked again; the whole is read as a sheet before it is written, so that no bad sheet is
//! made.

use std::collections::BTreeMap;
use std::io::BufRead;
use std::path::Path;

use events::{Sheet, SheetError};
use units::text;

use super::questions::{Kind, QUESTIONS, Question, When};
use super::tell;
use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// An answer is asked for again so often.
const TRIES: u32 = 5;

/// `sheet new`.
pub fn new(into: &Path, answers: &mut dyn BufRead, screen: Screen) -> Result<(), Failure> {
    if into.exists() {
        return Err(Failure::new(
            Exit::CannotCreate,
            format!("cannot make {}: it exists already", into.display()),
        )
        .try_this("name another file, or check this one with `standpipe sheet check`"));
    }
    tell(
        "Each value is asked for with what it means and where it is found. An empty line takes what stands in brackets.\n",
    );
    let mut given = BTreeMap::new();
    for question in QUESTIONS {
        if holds(question.when, &given) {
            given.insert(question.key, ask(question, answers)?);
        }
    }
    for _ in 0..TRIES {
        let text = compose(&given);
        let error = match Sheet::parse(&text) {
            Ok(_) => {
                std::fs::write(into, &text).map_err(|e| Failure::file("write", into, &e))?;
                return screen.line(&format!(
                    "written to {}; next: standpipe plan --sheet {}",
                    into.display(),
                    into.display()
                ));
            }
            Err(error) => error,
        };
        let key = if let SheetError::OutOfRange { key, .. } = &error { *key } else { "" };
        let Some(question) = QUESTIONS.iter().find(|q| q.key == key) else {
            return Err(Failure::new(Exit::Data, format!("these answers make no sheet: {error}")));
        };
        tell(&format!("That cannot be: {error}"));
        given.insert(question.key, ask(question, answers)?);
    }
    Err(Failure::new(Exit::Data, "these answers make no sheet")
        .try_this("start from `standpipe sheet template`"))
}

fn holds(when: When, given: &BTreeMap<&str, String>) -> bool {
    match when {
        When::Always => true,
        When::Fluid => given.get("check.signal").is_some_and(|s| s == "\"fluid\""),
        When::Selector => given.get("before.selector.positions").is_some_and(|p| p != "[]"),
    }
}

/// One question until its answer can be read. Gives the value as TOML; empty where it is left out.
fn ask(question: &Question, answers: &mut dyn BufRead) -> Result<String, Failure> {
    tell(&format!("{}\n  {}\n  Found: {}", question.asks, question.means, question.found));
    let usual = question.usual.map_or(String::new(), |u| format!("[{u}] "));
    for _ in 0..TRIES {
        tell(&format!("  {usual}> "));
        let mut line = String::new();
        let read = answers
            .read_line(&mut line)
            .map_err(|e| Failure::new(Exit::InputOutput, format!("cannot read the answer: {e}")))?;
        if read == 0 {
            return Err(Failure::new(Exit::Data, format!("the answers ended before `{}`", question.key))
                .try_this("start from `standpipe sheet template`"));
        }
        let answer = match (line.trim(), question.usual) {
            ("", Some(usual)) => usual,
            (answer, _) => answer,
        };
        match value(question.kind, answer) {
            Ok(value) => return Ok(value),
            Err(why) => tell(&format!("  {why}")),
        }
    }
    Err(Failure::new(Exit::Data, format!("no answer to `{}` could be read", question.key)))
}

/// An answer as a value of TOML.
fn value(kind: Kind, answer: &str) -> Result<String, String> {
    let number = |x: f64| if x.fract() == 0.0 { format!("{x:.1}") } else { format!("{x}") };
    let words = || answer.split_whitespace();
    match kind {
        Kind::Text if answer.is_empty() => Err("something must be given".to_owned()),
        Kind::Text => Ok(quoted(answer)),
        Kind::Word(known) => match known.iter().find(|w| w.eq_ignore_ascii_case(answer)) {
            Some(word) => Ok(quoted(word)),
            None => Err(format!("one of: {}", known.join(", "))),
        },
        Kind::Band => {
            let both = pair(answer, |t| text::celsius(t).map_err(|e| e.to_string()))?;
            Ok(format!("[{}, {}]", number(both[0].to_f64()), number(both[1].to_f64())))
        }
        Kind::Range => {
            let both = pair(answer, |t| t.parse::<u16>().map_err(|_| format!("`{t}` is no whole number")))?;
            Ok(format!("[{}, {}]", both[0], both[1]))
        }
        Kind::Volume => Ok(number(text::millilitres(answer).map_err(|e| e.to_string())?.to_f64())),
        Kind::Surface => surface(answer).map(number),
        Kind::Lengths => {
            let both = pair(answer, |t| text::millimetres(t).map_err(|e| e.to_string()))?;
            Ok(format!("[{}, {}]", number(both[0].to_f64()), number(both[1].to_f64())))
        }
        Kind::Torque if answer.is_empty() => Ok(String::new()),
        Kind::Torque => Ok(number(text::newton_metres(answer).map_err(|e| e.to_string())?.to_f64())),
        Kind::Number => {
            let hex = answer.strip_prefix("0x").or_else(|| answer.strip_prefix("0X"));
            let read = hex.map_or_else(|| answer.parse::<u32>(), |h| u32::from_str_radix(h, 16));
            read.map(|_| answer.to_lowercase())
                .map_err(|_| format!("`{answer}` is no whole number like 7 or 0x4D07"))
        }
        Kind::Decimal => answer
            .parse::<f64>()
            .ok()
            .filter(|x| x.is_finite())
            .map(number)
            .ok_or_else(|| format!("`{answer}` is no number")),
        Kind::Yes => match answer.to_lowercase().as_str() {
            "yes" | "y" => Ok("true".to_owned()),
            "no" | "n" => Ok("false".to_owned()),
            _ => Err("yes or no".to_owned()),
        },
        Kind::Positions if answer == "-" => Ok("[]".to_owned()),
        Kind::Positions => Ok(format!("[{}]", words().map(quoted).collect::<Vec<_>>().join(", "))),
        Kind::Days if answer == "-" => Ok("[]".to_owned()),
        Kind::Days => {
            let days: Result<Vec<u32>, _> = words().map(str::parse).collect();
            let days = days.map_err(|_| format!("`{answer}` are no whole days like `3 14`"))?;
            Ok(format!("[{}]", days.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")))
        }
    }
}

fn pair<T>(answer: &str, read: impl Fn(&str) -> Result<T, String>) -> Result<[T; 2], String> {
    let both: Vec<T> = answer.split_whitespace().map(read).collect::<Result<_, _>>()?;
    both.try_into().map_err(|_| format!("two values are needed, not `{answer}`"))
}

/// A surface in m².
fn surface(answer: &str) -> Result<f64, String> {
    let text = answer.replace('²', "2").replace(' ', "").to_lowercase();
    let like = || format!("`{answer}` is no surface like 600cm2 or 0.06m2");
    let (number, per) = match text.strip_suffix("cm2") {
        Some(number) => (number, 10_000.0),
        None => (text.strip_suffix("m2").ok_or_else(like)?, 1.0),
    };
    let number: f64 = number.parse().map_err(|_| like())?;
    Ok((number / per * 1e6).round() / 1e6)
}

/// A string of TOML.
fn quoted(text: &str) -> String {
    let clean: String = text.chars().filter(|c| !c.is_control()).collect();
    format!("\"{}\"", clean.replace('\\', "\\\\").replace('"', "\\\""))
}

/// The sheet's text: tables in the order of the questions, each value with its meaning.
fn compose(given: &BTreeMap<&'static str, String>) -> String {
    let mut out = String::from(
        "# Made with `standpipe sheet new`. Check every value against the maker's service information.\nsheet = 1\n",
    );
    let mut table = "";
    let mut selector = Vec::new();
    for question in QUESTIONS {
        let Some(value) = given.get(question.key).filter(|v| !v.is_empty()) else { continue };
        if let Some(part) = question.key.strip_prefix("before.selector.") {
            if value != "[]" {
                selector.push(format!("{part} = {value}"));
            }
            continue;
        }
        if !selector.is_empty() {
            out += &format!("selector = {{ {} }}\n", selector.join(", "));
            selector.clear();
        }
        let (of, key) = question.key.rsplit_once('.').unwrap_or(("", question.key));
        if of != table {
            out += &format!("\n[{of}]\n");
            table = of;
        }
        out += &format!("{:<44}# {}\n", format!("{key} = {value}"), question.means);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn answers_are_read_as_people_give_them() {
        let cases: &[(&str, Kind, &str, Result<&str, &str>)] = &[
            ("°F becomes °C", Kind::Band, "95F 113F", Ok("[35.0, 45.0]")),
            ("one value of two", Kind::Band, "35C", Err("two values")),
            ("no unit", Kind::Band, "35 45", Err("no unit")),
            ("quarts", Kind::Volume, "2.5qt", Ok("2366.0")),
            ("a surface", Kind::Surface, "600 cm²", Ok("0.06")),
            ("a surface in m²", Kind::Surface, "0.055m2", Ok("0.055")),
            ("no surface", Kind::Surface, "600", Err("600cm2")),
            ("torque", Kind::Torque, "29.5lbft", Ok("40.0")),
            ("no torque", Kind::Torque, "", Ok("")),
            ("hex", Kind::Number, "0x4D07", Ok("0x4d07")),
            ("a quote in a name", Kind::Text, "the \"old\" one", Ok("\"the \\\"old\\\" one\"")),
            ("nothing", Kind::Text, "", Err("must be given")),
            ("positions", Kind::Positions, "P R N D", Ok("[\"P\", \"R\", \"N\", \"D\"]")),
            ("none", Kind::Positions, "-", Ok("[]")),
            ("days", Kind::Days, "3 14", Ok("[3, 14]")),
            ("no days", Kind::Days, "soon", Err("no whole days")),
            ("yes", Kind::Yes, "Y", Ok("true")),
            ("maybe", Kind::Yes, "perhaps", Err("yes or no")),
        ];
        for (what, kind, answer, want) in cases {
            match (value(*kind, answer), want) {
                (Ok(got), Ok(want)) => assert_eq!(&got, want, "{what}"),
                (Err(got), Err(want)) => assert!(got.contains(want), "{what}: {got}"),
                (got, want) => panic!("{what}: {got:?}, not {want:?}"),
            }
        }
    }
}
