//! Two sheets side by side: what differs.
//!
//! In: two sheets. Out: [`Difference`]s, by key. What a sheet leaves out is compared as what stands there then. Not here: two jobs
//! (`job::compare`).

use std::collections::{BTreeMap, BTreeSet};

use events::{Sheet, Source};
use toml::{Table, Value};

use crate::look::label;

/// One value that differs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// Its key.
    pub key: String,
    /// What it is called.
    pub label: String,
    /// As the first has it, as the sheet writes it; absent where it has none.
    pub a: Option<String>,
    /// As the second has it.
    pub b: Option<String>,
    /// Where each comes from, as far as the sheets say.
    pub sources: [Option<Source>; 2],
}

/// What differs. A value that is the same and guessed in one only differs, too.
pub fn compare(a: &Sheet, b: &Sheet) -> Vec<Difference> {
    let (flat_a, flat_b) = (flat(a), flat(b));
    let keys: BTreeSet<&String> = flat_a.keys().chain(flat_b.keys()).collect();
    let mut out = Vec::new();
    for key in keys {
        let values = [flat_a.get(key), flat_b.get(key)];
        let sources = [a.source(key), b.source(key)];
        let guessed = sources.map(|source| source == Some(Source::Guessed));
        if values[0] != values[1] || guessed[0] != guessed[1] {
            let [a, b] = values.map(|value| value.cloned());
            out.push(Difference { label: label(key).to_owned(), key: key.clone(), a, b, sources });
        }
    }
    out
}

/// Every value by its key, as the sheet writes it.
fn flat(sheet: &Sheet) -> BTreeMap<String, String> {
    let mut out = BTreeMap::new();
    if let Ok(Value::Table(mut table)) = Value::try_from(sheet) {
        // How it is known is compared value by value.
        table.retain(|key, _| !["guessed", "unconfirmed", "provenance"].contains(&key));
        flatten(&mut out, "", &table);
    }
    out
}

fn flatten(out: &mut BTreeMap<String, String>, before: &str, table: &Table) {
    for (key, value) in table {
        let path = if before.is_empty() { key.clone() } else { format!("{before}.{key}") };
        match value {
            Value::Table(inner) => flatten(out, &path, inner),
            Value::Array(rows) if rows.first().is_some_and(Value::is_table) => {
                let only = rows.len() == 1;
                for (n, row) in (1..).zip(rows.iter().filter_map(Value::as_table)) {
                    let path = if only { path.clone() } else { format!("{path}[{n}]") };
                    flatten(out, &path, row);
                }
            }
            value => {
                out.insert(path, value.to_string());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "test code")]
    use super::*;

    #[test]
    fn only_what_differs_is_named() {
        let text = include_str!("../../../fixtures/sheets/template.toml");
        let a = Sheet::parse(text).unwrap();
        assert_eq!(compare(&a, &a), []);
        let mut b = a.clone();
        b.fluid.drain_ml = 2_500.0;
        b.guessed = vec!["standpipe.surface_m2".to_owned()];
        b.torque_nm.as_mut().unwrap().fill_port = None;
        let found = compare(&a, &b);
        let keys: Vec<&str> = found.iter().map(|d| d.key.as_str()).collect();
        assert_eq!(keys, ["fluid.drain_ml", "standpipe.surface_m2", "torque_nm.fill_port"]);
        assert_eq!((found[0].a.as_deref(), found[0].b.as_deref()), (Some("2400.0"), Some("2500.0")));
        assert_eq!(found[1].sources, [None, Some(Source::Guessed)], "the same value, but a guess");
        assert_eq!(found[2].b, None);
    }
}
