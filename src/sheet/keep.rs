//! A sheet's file anew, with what its owner wrote beside the values.
//!
//! In: the file as it stands, the sheet as it is to be. Out: the file's own text but for what differs: remarks, order and spelling stay.
//! Where that cannot be told for sure, the new text alone. Not here: what the sheet says (`sheets`).

use toml_edit::{DocumentMut, Item, Table, Value};

/// What stands before the meaning of a value that nobody gave.
const GUESSED: &str = "guessed. ";

/// The text of `old` with the values of `new`.
pub fn joined(old: &str, new: &str) -> String {
    let parsed = (old.parse::<DocumentMut>(), new.parse::<DocumentMut>(), plain(new));
    let (Ok(mut kept), Ok(wanted), Some(want)) = parsed else { return new.to_owned() };
    update(kept.as_table_mut(), wanted.as_table());
    let text = kept.to_string();
    if plain(&text) == Some(want) { text } else { new.to_owned() }
}

fn plain(text: &str) -> Option<toml::Table> {
    text.parse().ok()
}

fn update(old: &mut Table, new: &Table) {
    let gone: Vec<String> =
        old.iter().map(|(key, _)| key.to_owned()).filter(|key| !new.contains_key(key)).collect();
    for key in gone {
        old.remove(&key);
    }
    for (key, wanted) in new {
        match (old.get_mut(key), wanted) {
            (Some(Item::Table(kept)), Item::Table(wanted)) => update(kept, wanted),
            (Some(Item::ArrayOfTables(kept)), Item::ArrayOfTables(wanted)) if kept.len() == wanted.len() => {
                kept.iter_mut().zip(wanted.iter()).for_each(|(kept, wanted)| update(kept, wanted));
            }
            (Some(Item::Value(kept)), Item::Value(wanted)) => value(kept, wanted),
            (Some(kept), wanted) if same(kept, wanted) => {}
            _ => {
                old.insert(key, anywhere(wanted));
            }
        }
    }
}

/// One value. Its owner's remark stays; ours follows what the value is.
fn value(kept: &mut Value, wanted: &Value) {
    let suffix =
        |value: &Value| value.decor().suffix().and_then(|s| s.as_str()).unwrap_or_default().to_owned();
    let (was, is) = (suffix(kept), suffix(wanted));
    let bare = |remark: &str| remark.trim().trim_start_matches('#').trim().replacen(GUESSED, "", 1);
    let ours = !was.trim().is_empty() && bare(&was) == bare(&is);
    if plainly(kept) != plainly(wanted) {
        let decor = kept.decor().clone();
        *kept = wanted.clone();
        *kept.decor_mut() = decor;
    }
    if ours {
        kept.decor_mut().set_suffix(is);
    }
}

/// The same, however it is written: a table in a line or under a head of its own.
fn same(one: &Item, other: &Item) -> bool {
    let of = |item: &Item| {
        let mut alone = DocumentMut::new();
        alone.insert("it", anywhere(item));
        plain(&alone.to_string())
    };
    of(one).is_some_and(|one| Some(one) == of(other))
}

fn plainly(value: &Value) -> Option<toml::Table> {
    let mut bare = value.clone();
    bare.decor_mut().clear();
    plain(&format!("it = {bare}"))
}

/// Without the place that it has in its own text.
fn anywhere(item: &Item) -> Item {
    let mut item = item.clone();
    if let Item::Table(table) = &mut item {
        lift(table);
    }
    if let Item::ArrayOfTables(rows) = &mut item {
        rows.iter_mut().for_each(lift);
    }
    item
}

fn lift(table: &mut Table) {
    table.set_position(None);
    for (_, item) in table.iter_mut() {
        *item = anywhere(item);
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, reason = "test code")]
    use crate::sheet::change::{changed, confirmed};

    #[test]
    fn a_changed_value_leaves_every_line_but_its_own() {
        let old =
            crate::sheet::TEMPLATE.replacen("sheet = 1", "# Bay 2, K's own: the black one.\nsheet = 1", 1);
        let (new, _) = changed(&old, "torque_nm.fill_port", "36 lb-ft", None).unwrap();
        let new = new.unwrap();
        let (mut gone, mut come) = (Vec::new(), Vec::new());
        for line in old.lines().filter(|line| !new.lines().any(|l| l == *line)) {
            gone.push(line);
        }
        for line in new.lines().filter(|line| !old.lines().any(|l| l == *line)) {
            come.push(line);
        }
        assert_eq!(gone.len(), 1, "{gone:?} {come:?}");
        assert!(gone.iter().all(|line| line.starts_with("fill_port")), "{gone:?}");
        assert!(come.iter().any(|line| line.starts_with("fill_port = 48.8")), "{come:?}");
        assert!(new.contains("the black one"));
    }

    #[test]
    fn the_word_that_a_value_is_guessed_goes_with_the_guess() {
        let mut interview = sheets::Interview::new("x");
        for said in ["as specified", "35-45 C", "2,4 L", "done"] {
            interview.hear(said, "2026-03-02");
        }
        let (old, _) = interview.sheet().unwrap();
        let old = old.replacen("[standpipe]", "# Measured on the bench next week.\n[standpipe]", 1);
        let line = |text: &str| text.lines().find(|l| l.starts_with("rim_mm")).unwrap().to_owned();
        assert!(line(&old).contains("guessed"), "{}", line(&old));
        let (new, _) = changed(&old, "standpipe.rim_mm", "2 mm (measured)", Some("K")).unwrap();
        let new = new.unwrap();
        assert!(!line(&new).contains("guessed") && new.contains("on the bench"), "{new}");
    }

    #[test]
    fn remarks_stay_where_values_are_confirmed() {
        let old = crate::sheet::TEMPLATE.replacen(
            "sheet = 1",
            "# Shared by the other bay.\nunconfirmed = [\"check\", \"fluid\"] # read page 12\nsheet = 1",
            1,
        );
        let (new, _) = confirmed(&old, &["check".to_owned()], "K").unwrap();
        assert!(
            new.contains("# Shared by the other bay.") && new.contains("[\"fluid\"] # read page 12"),
            "{new}"
        );
    }
}
