//! From what a person types to a value of the sheet.
//!
//! In: a question, an answer. Out: a value, or why not in a sentence. Not here: amounts and units (`units::text`), whether the value
//! goes with the others (`events::Sheet::parse`).

use events::Source;
use toml::Value;
use units::text;

use crate::answers::Answers;
use crate::questions::{Kind, Question};

/// How far an engine's idle goes to both sides of the one number that a rev counter shows.
/// Source: common practice, no source.
const IDLE_SIDES: i64 = 150;
/// Longer no text of an answer is.
/// Own choice: a screen shows it in four rows; what is pasted by mistake is longer.
const LONGEST: usize = 300;

/// Splits `40 Nm (measured)` and `35-45 C (maker, page 12)` into the answer, where it comes from, and the remark.
pub(crate) fn source(answer: &str) -> (&str, Source, Option<String>) {
    let plain = (answer, Source::Given, None);
    let Some((before, inside)) = answer.trim_end().strip_suffix(')').and_then(|a| a.rsplit_once('(')) else {
        return plain;
    };
    let (how, note) =
        inside.split_once([',', ':', ';']).map_or((inside, ""), |(how, note)| (how, note.trim()));
    let how = match how.trim().to_lowercase().as_str() {
        "measured" => Source::Measured,
        "maker" | "manual" | "makers-text" | "maker's text" => Source::MakersText,
        "found" => Source::Found,
        "given" => Source::Given,
        _ => return plain,
    };
    let note: String = note.chars().take(200).collect();
    (before.trim_end(), how, (!note.is_empty()).then_some(note))
}

/// Reads an answer.
pub(crate) fn value(question: &Question, answers: &Answers, answer: &str) -> Result<Value, String> {
    let said = |e: text::TextError| e.to_string();
    if answer.chars().count() > LONGEST {
        return Err(format!("that is longer than {LONGEST} characters"));
    }
    if let Err(hidden) = events::text::check(answer) {
        return Err(hidden.to_string());
    }
    match question.kind {
        Kind::Text => Ok(Value::String(answer.to_owned())),
        Kind::Choice(choices) => {
            let fitting: Vec<_> = choices.iter().filter(|c| (c.fits)(answers)).collect();
            let lower = answer.to_lowercase();
            let numbered = lower.parse::<usize>().ok().and_then(|n| fitting.get(n.checked_sub(1)?));
            let mut begun = fitting.iter().filter(|c| c.word.starts_with(&lower));
            let only = begun.next().filter(|_| begun.next().is_none());
            let exact = fitting.iter().find(|c| c.word == lower);
            let chosen = numbered.or(exact).or(only);
            let words: Vec<&str> = fitting.iter().map(|c| c.word).collect();
            chosen.map(|c| Value::String(c.word.to_owned())).ok_or_else(|| {
                format!(
                    "`{answer}` is none of them: a number from 1 to {}, or one of: {}",
                    fitting.len(),
                    words.join(", ")
                )
            })
        }
        Kind::Band => {
            text::celsius_span(answer).map(|both| floats(both.map(units::Celsius::to_f64))).map_err(said)
        }
        Kind::Temperature => text::celsius(answer).map(|c| Value::Float(c.to_f64())).map_err(said),
        Kind::Idle => {
            let [low, high] = text::rpm_span(answer).map_err(said)?.map(|rpm| i64::from(rpm.steps()));
            let sides = if low == high { IDLE_SIDES } else { 0 };
            Ok(Value::Array(vec![Value::Integer((low - sides).max(0)), Value::Integer(high + sides)]))
        }
        Kind::Volume => {
            text::millilitres(answer).map(|ml| Value::Integer(i64::from(ml.steps()))).map_err(said)
        }
        Kind::Surface => text::square_metres(answer).map(Value::Float).map_err(said),
        Kind::Place | Kind::Depth => {
            let both = text::millimetres_span(answer).map_err(said)?.map(units::Millimetres::to_f64);
            Ok(floats(both))
        }
        Kind::Length => text::millimetres(answer).map(|mm| Value::Float(mm.to_f64())).map_err(said),
        Kind::Wait => {
            let [from, to] = text::seconds_span(answer).map_err(said)?;
            let [from, to] = [seconds(from)?, seconds(to)?];
            Ok(Value::Array(if from == to { vec![from] } else { vec![from, to] }))
        }
        Kind::Seconds => match answer.parse::<f64>() {
            Ok(bare) => seconds(bare),
            Err(_) => seconds(text::seconds_span(answer).map_err(said)?[0]),
        },
        Kind::Torque => text::newton_metres(answer).map(|nm| Value::Float(nm.to_f64())).map_err(said),
        Kind::Angle => match answer {
            "0" | "level" => Ok(Value::Float(0.0)),
            _ => text::degrees(answer).map(|deg| Value::Float(deg.to_f64())).map_err(said),
        },
        Kind::Number => {
            let hex = answer.strip_prefix("0x").or_else(|| answer.strip_prefix("0X"));
            let read = hex.map_or_else(|| answer.parse::<u32>(), |h| u32::from_str_radix(h, 16));
            read.map(|n| Value::Integer(i64::from(n)))
                .map_err(|_| format!("`{answer}` is no whole number like 7 or 0x4D07"))
        }
        Kind::Decimal => {
            let read = answer.replace(',', ".").parse::<f64>().ok().filter(|x| x.is_finite());
            read.map(Value::Float).ok_or_else(|| format!("`{answer}` is no number like 0.5"))
        }
        Kind::Yes => match answer.to_lowercase().as_str() {
            "yes" | "y" | "true" => Ok(Value::Boolean(true)),
            "no" | "n" | "false" => Ok(Value::Boolean(false)),
            _ => Err(format!("`{answer}` is neither yes nor no")),
        },
        Kind::Positions if none(answer) => Ok(Value::Array(Vec::new())),
        Kind::Positions => Ok(Value::Array(
            answer
                .split([' ', ',', '-', '/'])
                .filter(|w| !w.is_empty())
                .map(|w| Value::String(w.to_owned()))
                .collect(),
        )),
        Kind::Days if none(answer) => Ok(Value::Array(Vec::new())),
        Kind::Days => {
            let days =
                answer.split([' ', ',']).filter(|w| !w.is_empty() && !["and", "days", "d"].contains(w));
            let days: Result<Vec<Value>, _> =
                days.map(|w| w.parse::<u32>().map(|d| Value::Integer(i64::from(d)))).collect();
            days.map(Value::Array).map_err(|_| format!("`{answer}` are no whole days like `3 14`"))
        }
        Kind::Chart => chart(answer),
        Kind::Looks => looks(answer),
        Kind::List => Ok(Value::Array(
            answer
                .split(';')
                .map(str::trim)
                .filter(|w| !w.is_empty())
                .map(|w| Value::String(w.to_owned()))
                .collect(),
        )),
        Kind::Write => Err("`write`, or `go on`".to_owned()),
    }
}

fn none(answer: &str) -> bool {
    ["-", "none", "no"].contains(&answer.to_lowercase().as_str())
}

fn floats(both: [f64; 2]) -> Value {
    Value::Array(both.map(Value::Float).to_vec())
}

fn seconds(s: f64) -> Result<Value, String> {
    if (0.0..=86_400.0).contains(&s) {
        Ok(Value::Integer(s.round() as i64))
    } else {
        Err("that is no time to wait".to_owned())
    }
}

/// `20 26-36; 60 38-48`: °C, and from and to in millimetres.
fn chart(answer: &str) -> Result<Value, String> {
    let bad = |row: &str| format!("`{}` is no row like `20 26-36`: °C, then from and to in mm", row.trim());
    let mut rows = Vec::new();
    for row in answer.split(';').filter(|row| !row.trim().is_empty()) {
        let (celsius, mm) = row.trim().split_once([' ', ':']).ok_or_else(|| bad(row))?;
        let celsius: f64 =
            celsius.trim_end_matches(['C', 'c', '°']).replace(',', ".").parse().map_err(|_| bad(row))?;
        let mm = mm.trim();
        let mm = if mm.ends_with("mm") { mm.to_owned() } else { format!("{mm} mm") };
        let [low, high] = text::millimetres_span(&mm).map_err(|_| bad(row))?.map(units::Millimetres::to_f64);
        rows.push(Value::Array(vec![Value::Float(celsius), Value::Float(low), Value::Float(high)]));
    }
    Ok(Value::Array(rows))
}

/// Looks in their order: engine, sign, whether they wait for the band, what is filled after them.
fn looks(answer: &str) -> Result<Value, String> {
    if answer.eq_ignore_ascii_case("none") {
        return Ok(Value::Array(Vec::new()));
    }
    let mut rows = Vec::new();
    for row in answer.split(';').filter(|row| !row.trim().is_empty()) {
        let mut look = toml::Table::new();
        let (mut gate, mut engine) = ("none", false);
        for part in row.split(',').map(str::trim).filter(|part| !part.is_empty()) {
            let lower = part.to_lowercase();
            match lower.as_str() {
                "idle" | "idling" => engine = true,
                "off" | "ready-off" => {
                    engine = true;
                    look.insert("engine".to_owned(), Value::String(lower));
                }
                "band" => gate = "band",
                "any" => gate = "none",
                "trickle" | "drips" | "lower-edge" => {
                    look.insert("right".to_owned(), Value::String(lower));
                }
                _ => {
                    let amount = lower.strip_prefix("then ").ok_or_else(|| {
                        format!("`{part}` is none of: idle, off, ready-off, trickle, drips, lower-edge, band, any, then 2 L")
                    })?;
                    let ml = text::millilitres(amount).map_err(|e| e.to_string())?;
                    look.insert("then_add_ml".to_owned(), Value::Integer(i64::from(ml.steps())));
                }
            }
        }
        if !engine {
            return Err(format!(
                "`{}` does not say what the engine does: idle, off or ready-off",
                row.trim()
            ));
        }
        if gate == "none" {
            look.insert("gate".to_owned(), Value::String("none".to_owned()));
            look.insert("open".to_owned(), Value::String("any".to_owned()));
        }
        rows.push(Value::Table(look));
    }
    Ok(Value::Array(rows))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, reason = "test code")]
    use super::*;
    use crate::questions::QUESTIONS;

    #[test]
    fn answers_are_read_as_people_give_them() {
        #[rustfmt::skip]
        let cases: &[(&str, &str, Result<&str, &str>)] = &[
            ("check.band_c",              "95-113 F",         Ok("[35.0, 45.0]")),
            ("check.band_c",              "40 °C",            Ok("[40.0, 40.0]")),
            ("check.band_c",              "35 45",            Err("no unit")),
            ("fluid.drain_ml",            "1/2 qt",           Ok("473")),
            ("fluid.total_ml",            "6,5 L",            Ok("6500")),
            ("torque_nm.check_port",      "30 ft-lb",         Ok("40.7")),
            ("torque_nm.check_port",      "15 in-lb",         Ok("1.7")),
            ("check.idle_rpm",            "700",              Ok("[550, 850]")),
            ("check.idle_rpm",            "550-900 rpm",      Ok("[550, 900]")),
            ("standpipe.surface_m2",      "30 x 20 cm",       Ok("0.06")),
            ("standpipe.offset_mm",       "120mm -30mm",      Ok("[120.0, -30.0]")),
            ("level.rim",                 "2",                Ok("\"job-pipe\"")),
            ("level.rim",                 "Gauge",            Ok("\"gauge\"")),
            ("level.rim",                 "side",             Ok("\"side-hole\"")),
            ("level.rim",                 "7",                Err("a number from 1 to 6")),
            ("identifier.id",             "0x4D07",           Ok("19719")),
            ("before.selector.positions", "P-R-N-D",          Ok("[\"P\", \"R\", \"N\", \"D\"]")),
            ("before.selector.positions", "none",             Ok("[]")),
            ("before.selector.dwell_s",   "3",                Ok("3")),
            ("before.selector.dwell_s",   "1/2 min",          Ok("30")),
            ("look.wait_s",               "1-3 min",          Ok("[60, 180]")),
            ("look.wait_s",               "60 s",             Ok("[60]")),
            ("look.chart",                "20 26-36; 60C 38 48", Ok("[[20.0, 26.0, 36.0], [60.0, 38.0, 48.0]]")),
            ("look.chart",                "20: 26",           Ok("[[20.0, 26.0, 26.0]]")),
            ("look.chart",                "warm 26-36",       Err("no row like")),
            ("recheck.days",              "3 and 14 days",    Ok("[3, 14]")),
            ("recheck.days",              "soon",             Err("no whole days")),
            ("stand.pitch_deg",           "level",            Ok("0.0")),
            ("stand.air_springs",         "perhaps",          Err("neither yes nor no")),
            ("access",                    "wheel; shield",    Ok("[\"wheel\", \"shield\"]")),
            ("fluid.density_15",          "850,5",            Ok("850.5")),
            ("name",                      "a\u{1b}b",         Err("U+001B")),
        ];
        for (key, answer, want) in cases {
            let question = QUESTIONS.iter().find(|q| q.key == *key).unwrap();
            match (value(question, &Answers::default(), answer), want) {
                (Ok(got), Ok(want)) => assert_eq!(got.to_string(), *want, "{key}: {answer}"),
                (Err(got), Err(want)) => assert!(got.contains(want), "{key}: {got}"),
                (got, want) => panic!("{key}: {answer}: {got:?}, not {want:?}"),
            }
        }
    }

    #[test]
    fn an_answer_may_say_where_it_comes_from() {
        assert_eq!(source("40 Nm (measured)"), ("40 Nm", Source::Measured, None));
        assert_eq!(
            source("35-45 C (maker, page 12)"),
            ("35-45 C", Source::MakersText, Some("page 12".to_owned()))
        );
        assert_eq!(source("35-45 C"), ("35-45 C", Source::Given, None));
        assert_eq!(source("six-speed (old one)").0, "six-speed (old one)", "no word of ours");
    }
}
