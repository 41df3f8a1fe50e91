//! Where values come from, and which nobody has confirmed: what a sheet may say of it.

#![allow(clippy::unwrap_used, clippy::panic, clippy::expect_used, reason = "test code")]

use events::{Sheet, Source};

const PIPE: &str = include_str!("../../../fixtures/sheets/demo-six-speed.toml");

fn with(top: &str, tables: &str) -> Result<Sheet, String> {
    Sheet::parse(&format!("{}\n{tables}", PIPE.replacen("sheet = 1", &format!("sheet = 1\n{top}"), 1)))
        .map_err(|e| e.to_string())
}

#[test]
fn a_value_may_say_where_it_comes_from() {
    let of = "[provenance]\n\"check.band_c\" = { how = \"makers-text\", at = \"2026-03-02\", by = \"K\", note = \"page 12\" }\n\
              \"standpipe.bore_mm\" = { how = \"guessed\" }\n\"fluid.drain_ml\" = { how = \"measured\" }";
    let sheet = with("guessed = [\"standpipe.bore_mm\"]\nunconfirmed = [\"identifier\"]", of).unwrap();
    assert_eq!(sheet.source("check.band_c"), Some(Source::MakersText));
    assert_eq!(sheet.source("standpipe.bore_mm"), Some(Source::Guessed));
    assert_eq!(sheet.source("fluid.drain_ml"), Some(Source::Measured));
    assert_eq!(sheet.source("fluid.total_ml"), None, "a sheet need not say it");
    assert_eq!(sheet.unconfirmed, ["identifier"]);
    let again = toml::to_string(&sheet).unwrap();
    assert_eq!(Sheet::parse(&again), Ok(sheet), "written out and read again");
}

#[test]
fn what_cannot_be_is_refused_with_its_place() {
    let long = "x".repeat(201);
    let note = format!("[provenance]\n\"fluid.drain_ml\" = {{ how = \"measured\", note = \"{long}\" }}");
    let cases = [
        ("", "[provenance]\n\"fluid.dran_ml\" = { how = \"measured\" }", "`provenance` is \"fluid.dran_ml\""),
        ("", "[provenance]\n\"fluid.drain_ml\" = { how = \"heard\" }", "unknown variant `heard`"),
        (
            "",
            "[provenance]\n\"fluid.drain_ml\" = { how = \"found\", who = \"K\" }",
            "unknown key `provenance.*.who`",
        ),
        (
            "",
            "[provenance]\n\"fluid.drain_ml\" = { how = \"guessed\" }",
            "of one mind with the list `guessed`",
        ),
        (
            "guessed = [\"fluid.drain_ml\"]",
            "[provenance]\n\"fluid.drain_ml\" = { how = \"measured\" }",
            "of one mind with the list `guessed`",
        ),
        ("", note.as_str(), "short: at most 40 characters"),
        ("unconfirmed = [\"band\"]", "", "`unconfirmed` is \"band\""),
    ];
    for (top, tables, want) in cases {
        let said = with(top, tables).expect_err(want);
        assert!(said.contains(want) && said.starts_with("line "), "{want}: {said}");
    }
}
