//! A value of the sheet as people read it.
//!
//! In: how it is read, the value, the units of the reader. Out: a text. Not here: numbers and units (`units::text`).

use toml::Value;
use units::text::{UnitSystem, show_celsius, show_millilitres, show_newton_metres};
use units::{Celsius, Millilitres, NewtonMetres};

use crate::answers::number;
use crate::questions::Kind;

pub(crate) fn shown(key: &str, kind: Kind, value: &Value, units: UnitSystem) -> String {
    let one = || number(value).unwrap_or_default();
    let celsius = |c: f64| show_celsius(Celsius::clamped(c), units);
    let all: Vec<&Value> = value.as_array().map_or_else(Vec::new, |all| all.iter().collect());
    let numbers: Vec<f64> = all.iter().filter_map(|v| number(v)).collect();
    let joined = |between: &str, unit: &str| {
        let words: Vec<String> = numbers.iter().map(ToString::to_string).collect();
        format!("{}{unit}", words.join(between))
    };
    match kind {
        Kind::Band => match numbers.as_slice() {
            [low, high] if low == high => celsius(*low),
            [low, high] => format!("{} to {}", celsius(*low), celsius(*high)),
            _ => value.to_string(),
        },
        Kind::Temperature => celsius(one()),
        Kind::Volume => show_millilitres(Millilitres::clamped(one()), units),
        Kind::Torque => show_newton_metres(NewtonMetres::clamped(one()), units),
        Kind::Surface => format!("{:.0} cm²", one() * 10_000.0),
        Kind::Length => format!("{} mm", one()),
        Kind::Angle => format!("{}°", one()),
        Kind::Seconds => format!("{} s", one()),
        Kind::Wait => joined(" to ", " s"),
        Kind::Idle => joined(" to ", " 1/min"),
        Kind::Depth => joined(" to ", " mm"),
        Kind::Place => match numbers.as_slice() {
            [forward, left] => format!("{forward} mm forward, {left} mm to the left"),
            _ => value.to_string(),
        },
        Kind::Yes => if value.as_bool() == Some(true) { "yes" } else { "no" }.to_owned(),
        Kind::Number if key == "identifier.id" || key == "identifier.service" => {
            format!("{:#04X}", one() as u32).replace("0X", "0x")
        }
        Kind::Number | Kind::Decimal => one().to_string(),
        Kind::Days if numbers.is_empty() => "none".to_owned(),
        Kind::Days => format!("{} days", joined(", ", "")),
        Kind::Positions if all.is_empty() => "not moved".to_owned(),
        Kind::Positions | Kind::List => {
            let between = if matches!(kind, Kind::List) { "; " } else { " " };
            all.iter().filter_map(|v| v.as_str()).collect::<Vec<_>>().join(between)
        }
        Kind::Chart => {
            let row = |row: &&Value| {
                let row: Vec<f64> =
                    row.as_array().map_or_else(Vec::new, |r| r.iter().filter_map(number).collect());
                match row.as_slice() {
                    [c, low, high] => format!("{} {low} to {high} mm", celsius(*c)),
                    _ => String::new(),
                }
            };
            all.iter().map(row).collect::<Vec<_>>().join("; ")
        }
        Kind::Looks if all.is_empty() => "none".to_owned(),
        Kind::Looks => {
            let row = |row: &&Value| {
                let word = |key: &str| row.get(key).and_then(Value::as_str).map(str::to_owned);
                let add = row.get("then_add_ml").and_then(number);
                let add = add.map(|ml| format!("then {}", show_millilitres(Millilitres::clamped(ml), units)));
                let engine = word("engine").unwrap_or_else(|| "idle".to_owned());
                let gate = (word("gate").as_deref() != Some("none")).then(|| "band".to_owned());
                [Some(engine), gate, word("right"), add].into_iter().flatten().collect::<Vec<_>>().join(", ")
            };
            all.iter().map(row).collect::<Vec<_>>().join("; ")
        }
        Kind::Text | Kind::Choice(_) | Kind::Write => {
            value.as_str().map_or_else(|| value.to_string(), str::to_owned)
        }
    }
}
