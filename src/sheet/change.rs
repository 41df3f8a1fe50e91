//! One value is changed, or values are confirmed; the rest of the sheet stays.
//!
//! In: a sheet's file, a key, an answer. Out: the file anew. Not here: how an answer is read (`sheets`).

use std::path::Path;

use events::Sheet;
use sheets::{AnswerOutcome, Interview};

use super::{NOTE, keep, replace, text, today, unreadable};
use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// `sheet change`.
pub fn change(file: &Path, key: &str, answer: &str, by: Option<&str>, screen: Screen) -> Result<(), Failure> {
    let (new, says) = changed(&text(file)?, key, answer, by).map_err(|why| {
        Failure::new(Exit::Data, format!("{}: {why}", file.display()))
            .try_this("`standpipe sheet show FILE` lists the keys; `sheet change FILE KEY ?` explains one")
    })?;
    if let Some(new) = new {
        replace(file, &new)?;
    }
    screen.line(&says)
}

/// The sheet with one value changed, and what was made of it; without a sheet where help was asked for.
pub fn changed(
    sheet: &str,
    key: &str,
    answer: &str,
    by: Option<&str>,
) -> Result<(Option<String>, String), String> {
    let mut interview = Interview::correct(sheet).map_err(|e| e.to_string())?.by(by.map(str::to_owned));
    interview.turn_to(key).map_err(|_| format!("no value `{key}` is asked for in this sheet"))?;
    match interview.hear(answer, &today()) {
        AnswerOutcome::Taken { says } => {
            let (text, _) = interview.sheet().map_err(|e| e.to_string())?;
            Ok((Some(keep::joined(sheet, &text)), says))
        }
        AnswerOutcome::Help { says } => Ok((None, says)),
        AnswerOutcome::Again { why } => Err(why),
        AnswerOutcome::Written | AnswerOutcome::Stopped => Err(format!("`{answer}` is no value")),
    }
}

/// `sheet confirm`.
pub fn confirm(file: &Path, keys: &[String], by: &str, screen: Screen) -> Result<(), Failure> {
    let bad = |why: String| Failure::new(Exit::Data, format!("{}: {why}", file.display()));
    let (new, says) = confirmed(&text(file)?, keys, by).map_err(bad)?;
    Sheet::parse(&new).map_err(|e| unreadable(file, &e))?;
    replace(file, &new)?;
    says.iter().try_for_each(|line| screen.line(line))
}

/// The sheet in which so many values more are confirmed: all of them where none is named. What is guessed cannot be confirmed:
/// somebody must give it first.
pub fn confirmed(text: &str, keys: &[String], by: &str) -> Result<(String, Vec<String>), String> {
    let sheet = Sheet::parse(text).map_err(|e| e.to_string())?;
    if sheet.unconfirmed.is_empty() {
        return Err("every value is confirmed already".to_owned());
    }
    let mut table: toml::Table = text.parse().map_err(|e: toml::de::Error| e.message().to_owned())?;
    // Of a table that stands for all of its values, some may be named.
    let is_inside =
        |named: &str, key: &str| key.strip_prefix(named).is_some_and(|rest| rest.starts_with('.'));
    let opens = |named: &String| !keys.contains(named) && keys.iter().any(|key| is_inside(named, key));
    let listed: Vec<String> = sheet
        .unconfirmed
        .iter()
        .flat_map(|named| if opens(named) { opened(&sheet, &table, named) } else { vec![named.clone()] })
        .collect();
    if let Some(other) = keys.iter().find(|key| !listed.contains(key)) {
        return Err(format!("`{other}` is not among the unconfirmed ones: {}", sheet.unconfirmed.join(", ")));
    }
    if by.trim().is_empty() || by.chars().count() > 60 {
        return Err("say who confirms it, in 1 to 60 characters".to_owned());
    }
    let named: Vec<String> = if keys.is_empty() { listed.clone() } else { keys.to_vec() };
    if let Some(guess) = named.iter().find(|key| key.contains('.') && sheet.is_guessed(key)) {
        return Err(format!(
            "`{guess}` is a guess: give it with `standpipe sheet change FILE {guess} ANSWER`"
        ));
    }
    let left: Vec<toml::Value> =
        listed.iter().filter(|key| !named.contains(key)).cloned().map(toml::Value::String).collect();
    let mut says = Vec::new();
    for key in &named {
        says.push(format!("{key}: confirmed by {by}"));
    }
    if left.is_empty() {
        table.remove("unconfirmed");
    } else {
        table.insert("unconfirmed".to_owned(), toml::Value::Array(left));
    }
    // Who confirmed stands beside each value that says where it comes from.
    let note = format!("confirmed here by {by}, {}", today());
    if let Some(provenance) = table.get_mut("provenance").and_then(toml::Value::as_table_mut) {
        for (key, of) in provenance.iter_mut() {
            let is_named = named.iter().any(|n| n == key || key.starts_with(&format!("{n}.")));
            if let Some(of) = of.as_table_mut().filter(|_| is_named) {
                let before =
                    of.get("note").and_then(toml::Value::as_str).map_or(String::new(), |n| format!("{n}; "));
                let note: String = format!("{before}{note}").chars().take(NOTE).collect();
                of.insert("note".to_owned(), toml::Value::String(note));
            }
        }
    }
    let interview = Interview::correct(&table.to_string()).map_err(|e| e.to_string())?;
    let (new, _) = interview.sheet().map_err(|e| e.to_string())?;
    Ok((keep::joined(text, &new), says))
}

/// Every value that nobody has confirmed, one by one.
pub fn one_by_one(sheet: &Sheet, table: &toml::Table) -> Vec<String> {
    let mut all: Vec<String> =
        sheet.unconfirmed.iter().flat_map(|named| opened(sheet, table, named)).collect();
    all.sort_unstable();
    all.dedup();
    all
}

/// The values of a table that are there and no guesses: a guess is marked as one, and nobody confirms it. What has none of its own is one.
fn opened(sheet: &Sheet, table: &toml::Table, named: &str) -> Vec<String> {
    let mut found = named.split('.');
    let first = found.next().and_then(|key| table.get(key));
    let value = found.fold(first, |value, key| value?.get(key));
    let mut inner = Vec::new();
    if let Some(toml::Value::Table(values)) = value {
        for key in values.keys().map(|key| format!("{named}.{key}")).filter(|key| !sheet.is_guessed(key)) {
            inner.extend(opened(sheet, table, &key));
        }
    }
    if inner.is_empty() { vec![named.to_owned()] } else { inner }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, reason = "test code")]
    use super::*;

    #[test]
    fn what_is_confirmed_is_confirmed_and_no_guess_is() {
        let text = super::super::TEMPLATE.replacen(
            "sheet = 1",
            "unconfirmed = [\"check\", \"fluid.drain_ml\", \"standpipe.rim_mm\"]\nguessed = [\"standpipe.rim_mm\"]\nsheet = 1",
            1,
        );
        assert!(confirmed(&text, &[], "K").unwrap_err().contains("is a guess"));
        let (one, says) = confirmed(&text, &["check".to_owned(), "fluid.drain_ml".to_owned()], "K").unwrap();
        assert_eq!(Sheet::parse(&one).unwrap().unconfirmed, ["standpipe.rim_mm"]);
        assert_eq!(says.len(), 2);
        assert!(confirmed(&one, &["fluid".to_owned()], "K").unwrap_err().contains("not among"));
        let (given, _) = changed(&one, "standpipe.rim_mm", "2 mm (measured)", Some("K")).unwrap();
        let sheet = Sheet::parse(&given.unwrap()).unwrap();
        assert!(sheet.unconfirmed.is_empty() && sheet.guessed.is_empty(), "given is confirmed: {sheet:?}");
        assert!(confirmed(super::super::TEMPLATE, &[], "K").unwrap_err().contains("already"));
    }

    #[test]
    fn a_table_is_confirmed_value_by_value() {
        let text = super::super::TEMPLATE.replacen(
            "sheet = 1",
            "unconfirmed = [\"check\", \"fluid\"]\nsheet = 1",
            1,
        );
        let values = |text: &str| one_by_one(&Sheet::parse(text).unwrap(), &text.parse().unwrap());
        let all = values(&text);
        assert!(
            all.contains(&"check.band_c".to_owned()) && all.contains(&"fluid.drain_ml".to_owned()),
            "{all:?}"
        );
        assert!(confirmed(&text, &["check.none".to_owned()], "K").unwrap_err().contains("not among"));
        let mut now = text;
        for (n, key) in all.iter().enumerate() {
            assert!(!Sheet::parse(&now).unwrap().unconfirmed.is_empty(), "{n} of {} are not all", all.len());
            now = confirmed(&now, std::slice::from_ref(key), "K")
                .unwrap_or_else(|why| panic!("{key}: {why}"))
                .0;
            assert!(!values(&now).contains(key), "{key}");
        }
        assert!(Sheet::parse(&now).unwrap().unconfirmed.is_empty());
    }

    #[test]
    fn one_value_is_changed_and_the_rest_stays() {
        let was = Sheet::parse(super::super::TEMPLATE).unwrap();
        let (text, says) =
            changed(super::super::TEMPLATE, "torque_nm.fill_port", "36 lb-ft (maker)", Some("K")).unwrap();
        let now = Sheet::parse(&text.unwrap()).unwrap();
        let keys: Vec<String> = sheets::compare(&was, &now).into_iter().map(|d| d.key).collect();
        assert_eq!(keys, ["torque_nm.fill_port"], "{says}");
        assert_ne!(super::super::hash::of(&was), super::super::hash::of(&now));
        assert!(changed(super::super::TEMPLATE, "torque_nm.fill_port", "?", None).unwrap().0.is_none());
        assert!(
            changed(super::super::TEMPLATE, "torque_nm.fill_port", "40", None)
                .unwrap_err()
                .contains("no unit")
        );
        assert!(changed(super::super::TEMPLATE, "torque_nm.full_port", "40 Nm", None).is_err());
    }
}
