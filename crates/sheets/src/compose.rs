//! From answers to the text of a sheet.
//!
//! In: what was given, what the old sheet had. Out: TOML, each value with what it means; what nobody gave stands in `guessed`, what
//! no guess may stand in for in `unconfirmed`. What the questions do not ask for is kept as the old sheet has it.

use std::collections::BTreeMap;

use toml::{Table, Value};

use crate::answers::Answers;
use crate::questions::{BEFORE, MUST, QUESTIONS, WRITE};

/// Where values come from, by their keys.
pub(crate) type Sources = BTreeMap<String, Table>;

/// The tables in their order; others follow.
const ORDER: [&str; 12] = [
    "check",
    "identifier",
    "fluid",
    "standpipe",
    "level",
    "look",
    "stand",
    "torque_nm",
    "before",
    "recheck",
    "steps",
    "provenance",
];
/// The keys of the top in their order.
const TOP: [&str; 6] = ["sheet", "name", "bus", "access", "guessed", "unconfirmed"];

/// The sheet as a table.
pub(crate) fn table(answers: &Answers, sources: &Sources) -> Table {
    let mut sheet = answers.base().clone();
    sheet.insert("sheet".to_owned(), Value::Integer(1));
    // The keys of a look mean the last one; those before it are put before it at the end.
    if let Some(Value::Array(rows)) = sheet.get_mut("look") {
        rows.drain(..rows.len().saturating_sub(1));
    }
    for question in QUESTIONS.iter().filter(|q| q.key != WRITE && q.key != BEFORE) {
        match answers.written(question) {
            Some(value) => set(&mut sheet, question.key, value),
            None => unset(&mut sheet, question.key),
        }
    }
    follows(&mut sheet, answers);
    put_before(&mut sheet, answers);
    let guessed = guessed(answers);
    let known =
        |named: &str| QUESTIONS.iter().any(|q| q.key == named || q.key.starts_with(&format!("{named}.")));
    let kept = |list: &str| -> Vec<String> {
        let all = answers.base().get(list).and_then(Value::as_array);
        all.map_or_else(Vec::new, |all| all.iter().filter_map(Value::as_str).map(str::to_owned).collect())
    };
    let mut unconfirmed: Vec<String> =
        kept("unconfirmed").into_iter().filter(|k| !sources.contains_key(k)).collect();
    let must =
        QUESTIONS.iter().filter(|q| MUST.contains(&q.key) && answers.is_guessed(q)).map(|q| q.key.to_owned());
    unconfirmed.extend(must);
    unconfirmed.sort_unstable();
    unconfirmed.dedup();
    let others = kept("guessed").into_iter().filter(|key| !known(key));
    let guessed: Vec<String> = guessed.into_iter().chain(others).collect();
    for (key, list) in [("guessed", &guessed), ("unconfirmed", &unconfirmed)] {
        let list: Vec<Value> = list.iter().cloned().map(Value::String).collect();
        if list.is_empty() {
            sheet.remove(key)
        } else {
            sheet.insert(key.to_owned(), Value::Array(list))
        };
    }
    let mut provenance =
        sheet.remove("provenance").and_then(|p| p.try_into::<Table>().ok()).unwrap_or_default();
    // What comes before the last look has no key of its own in a sheet.
    let named = |key: &String| if key == BEFORE { "look".to_owned() } else { key.clone() };
    provenance.extend(sources.iter().map(|(key, of)| (named(key), Value::Table(of.clone()))));
    provenance.retain(|key, _| {
        let question = QUESTIONS.iter().find(|q| q.key == key);
        question.is_none_or(|q| !answers.is_guessed(q) && answers.written(q).is_some())
    });
    if !provenance.is_empty() {
        sheet.insert("provenance".to_owned(), Value::Table(provenance));
    }
    sheet
}

/// What is no question of its own.
fn follows(sheet: &mut Table, answers: &Answers) {
    if !answers.is("check.signal", &["fluid"]) {
        // What was found goes as a whole: its guard and its evidence are no one else's.
        let was_found = sheet.remove("identifier").is_some() && answers.was_found();
        if was_found {
            unset(sheet, "check.k");
            if let Some(of) = sheet.get_mut("provenance").and_then(Value::as_table_mut) {
                of.remove("identifier");
            }
        }
    }
    if answers.value("before.selector.positions").and_then(|v| v.as_array().map(Vec::is_empty)) == Some(true)
    {
        unset(sheet, "before.selector");
    }
    if !answers.is("check.signal", &["coolant"]) {
        unset(sheet, "check.from");
    }
    match answers.word("level.rim").as_str() {
        // Nothing is looked at.
        "none" => {
            sheet.remove("look");
            sheet.remove("standpipe");
            return;
        }
        "gauge" => set(sheet, "look.right", Value::String("chart".to_owned())),
        _ => {}
    }
    let open = match (answers.word("look.right").as_str(), answers.word("look.gate").as_str()) {
        ("first-drips", _) => Some("at-low-edge"),
        (_, "none") => Some("any"),
        _ => None,
    };
    match open {
        Some(open) => set(sheet, "look.open", Value::String(open.to_owned())),
        None => unset(sheet, "look.open"),
    }
    let after_drive = answers.is("look.gate", &["none"]) && !answers.is("look.engine", &["idle"]);
    if !after_drive {
        unset(sheet, "look.after_drive");
    }
}

/// The looks before the last one.
fn put_before(sheet: &mut Table, answers: &Answers) {
    let question = QUESTIONS.iter().find(|q| q.key == BEFORE);
    let before = question.and_then(|q| answers.written(q));
    let Some(Value::Array(before)) = before.filter(|all| all.as_array().is_some_and(|all| !all.is_empty()))
    else {
        return;
    };
    // The last one is a look, too, where nothing of it was said.
    let last = sheet.entry("look").or_insert_with(|| Value::Array(vec![Value::Table(Table::new())]));
    if let Value::Array(rows) = last {
        rows.splice(0..0, before);
    }
}

/// The keys that nobody gave; a table of which nothing was given stands for all of its keys.
pub(crate) fn guessed(answers: &Answers) -> Vec<String> {
    let table = |key: &'static str| key.split_once('.').map(|(table, _)| table);
    let stand: Vec<(&'static str, bool)> = QUESTIONS
        .iter()
        .filter(|q| answers.written(q).is_some())
        .map(|q| (q.key, answers.is_guessed(q)))
        .collect();
    let mut out: Vec<String> = Vec::new();
    for (key, _) in stand.iter().filter(|(_, guessed)| *guessed) {
        // The whole table only where each of its values stands: one that is left out is no guess, nor one that has no choice.
        let whole = table(key).filter(|of| {
            let mut asked = QUESTIONS.iter().filter(|q| table(q.key) == Some(of));
            asked.all(|q| stand.contains(&(q.key, true)))
        });
        let named = whole.unwrap_or(key).to_owned();
        if !out.contains(&named) {
            out.push(named);
        }
    }
    out
}

fn set(table: &mut Table, key: &str, value: Value) {
    let Some((first, rest)) = key.split_once('.') else {
        table.insert(key.to_owned(), value);
        return;
    };
    let inner = table.entry(first).or_insert_with(|| {
        let empty = Value::Table(Table::new());
        if first == "look" { Value::Array(vec![empty]) } else { empty }
    });
    match inner {
        Value::Table(inner) => set(inner, rest, value),
        Value::Array(rows) => {
            if let Some(Value::Table(inner)) = rows.first_mut() {
                set(inner, rest, value);
            }
        }
        _ => {}
    }
}

fn unset(table: &mut Table, key: &str) {
    let Some((first, rest)) = key.split_once('.') else {
        table.remove(key);
        return;
    };
    let is_empty = match table.get_mut(first) {
        Some(Value::Table(inner)) => {
            unset(inner, rest);
            inner.is_empty()
        }
        Some(Value::Array(rows)) => match rows.as_mut_slice() {
            [Value::Table(inner)] => {
                unset(inner, rest);
                inner.is_empty()
            }
            _ => false,
        },
        _ => false,
    };
    if is_empty {
        table.remove(first);
    }
}

/// The sheet as a text.
pub(crate) fn text(sheet: &Table, answers: &Answers) -> String {
    let mut out = String::from(
        "# Made with `standpipe sheet`. Check every value against the maker's service information.\n",
    );
    let is_table = |value: &Value| {
        value.is_table() || value.as_array().is_some_and(|a| a.first().is_some_and(Value::is_table))
    };
    let top = TOP.iter().copied().filter(|key| sheet.contains_key(*key));
    let more = sheet.keys().map(String::as_str).filter(|key| !TOP.contains(key));
    for key in top.chain(more) {
        if let Some(value) = sheet.get(key).filter(|value| !is_table(value)) {
            line(&mut out, answers, "", key, value);
        }
    }
    let first = ORDER.iter().copied().filter(|key| sheet.contains_key(*key));
    let rest = sheet.keys().map(String::as_str).filter(|key| !ORDER.contains(key));
    for name in first.chain(rest) {
        match sheet.get(name) {
            Some(Value::Table(inner)) => tables(&mut out, answers, name, inner, false),
            Some(Value::Array(rows)) => {
                let rows = rows.iter().filter_map(Value::as_table);
                rows.for_each(|row| tables(&mut out, answers, name, row, true));
            }
            _ => {}
        }
    }
    out
}

fn tables(out: &mut String, answers: &Answers, name: &str, table: &Table, row: bool) {
    let is_short = |value: &Value| !value.is_table() || name == "provenance";
    // A row that says nothing is a look all the same.
    if row || table.values().any(is_short) {
        *out += &if row { format!("\n[[{name}]]\n") } else { format!("\n[{name}]\n") };
    }
    // In the order of the questions, then whatever else there is.
    let asked = QUESTIONS.iter().filter_map(|q| q.key.strip_prefix(name)?.strip_prefix('.'));
    let asked: Vec<&str> = asked.filter(|key| table.contains_key(*key)).collect();
    let rest = table.keys().map(String::as_str).filter(|key| !asked.contains(key));
    for key in asked.iter().copied().chain(rest) {
        if let Some(value) = table.get(key).filter(|value| is_short(value)) {
            line(out, answers, name, key, value);
        }
    }
    if name == "provenance" {
        return;
    }
    for (key, value) in table {
        if let Value::Table(inner) = value {
            tables(out, answers, &format!("{name}.{key}"), inner, false);
        }
    }
}

fn line(out: &mut String, answers: &Answers, table: &str, key: &str, value: &Value) {
    let path = if table.is_empty() { key.to_owned() } else { format!("{table}.{key}") };
    let value = match (path.as_str(), value.as_integer()) {
        ("identifier.service" | "identifier.id", Some(n)) => format!("{n:#04X}").replace("0X", "0x"),
        _ => value.to_string(),
    };
    let key = if table == "provenance" { Value::String(key.to_owned()).to_string() } else { key.to_owned() };
    let question = QUESTIONS.iter().find(|q| q.key == path);
    let means = match (path.as_str(), question) {
        ("guessed", _) => "nobody gave these: they widen the ±",
        ("unconfirmed", _) => "nobody has confirmed these: no job begins before",
        (_, question) => question.map_or("", |q| q.means),
    };
    let mark = if question.is_some_and(|q| answers.is_guessed(q)) { "guessed. " } else { "" };
    let line = format!("{key} = {value}");
    *out +=
        if means.is_empty() { format!("{line}\n") } else { format!("{line:<43} # {mark}{means}\n") }.as_str();
}
