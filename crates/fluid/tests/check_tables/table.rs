//! Reading a check table and comparing a row with what came out.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;

/// One row of a check table; columns by name.
pub(crate) struct Row {
    table: &'static str,
    columns: BTreeMap<String, String>,
}

/// How far a value may be off.
pub(crate) enum Tolerance {
    Absolute(f64),
    Relative(f64),
}

impl Row {
    /// The text of a column; empty cells are empty.
    pub(crate) fn text(&self, column: &str) -> &str {
        self.columns
            .get(column)
            .unwrap_or_else(|| panic!("table {} has no column {column}", self.table))
            .as_str()
    }

    /// The number in a column.
    pub(crate) fn f(&self, column: &str) -> f64 {
        let text = self.text(column);
        text.parse().unwrap_or_else(|_| panic!("{}: `{text}` in {column} is no number", self.name()))
    }

    /// The number in a column that may be empty.
    pub(crate) fn maybe(&self, column: &str) -> Option<f64> {
        (!self.text(column).is_empty()).then(|| self.f(column))
    }

    /// Litres in a column, in mL.
    pub(crate) fn litres(&self, column: &str) -> f64 {
        self.f(column) * 1_000.0
    }

    /// Which row this is.
    pub(crate) fn name(&self) -> String {
        format!("{} row {}", self.table, self.text("id"))
    }

    /// Compares with `expected_WHAT` of the row, within its tolerance.
    pub(crate) fn check(&self, what: &str, got: f64) {
        self.check_scaled(what, got, 1.0);
    }

    /// As `check`, where the table's unit is `scale` of ours.
    pub(crate) fn check_scaled(&self, what: &str, got: f64, scale: f64) {
        let column = format!("expected_{what}");
        self.near(&column, got * scale, self.f(&column));
    }

    /// Compares with `want` within the row's tolerance.
    pub(crate) fn near(&self, what: &str, got: f64, want: f64) {
        self.within(what, got, want, self.tolerance());
    }

    /// Compares with `want` within a tolerance the document states for this column.
    pub(crate) fn within(&self, what: &str, got: f64, want: f64, tolerance: Tolerance) {
        let allowed = match tolerance {
            Tolerance::Absolute(a) => a,
            Tolerance::Relative(_) if want == 0.0 => 1e-9,
            Tolerance::Relative(r) => r * want.abs(),
        };
        let off = (got - want).abs();
        assert!(off <= allowed, "{}: {what} is {got}, should be {want}; off by {off}", self.name());
    }

    fn tolerance(&self) -> Tolerance {
        match (self.columns.get("tol_abs"), self.columns.get("tol_rel")) {
            (Some(_), None) => Tolerance::Absolute(self.f("tol_abs")),
            (None, Some(_)) => Tolerance::Relative(self.f("tol_rel")),
            _ => panic!("table {} states no single tolerance", self.table),
        }
    }
}

/// Runs `check` over every row of a table.
pub(crate) fn each(table: &'static str, check: impl Fn(&Row)) {
    let rows = rows(table);
    assert!(!rows.is_empty(), "table {table} has no rows");
    rows.iter().for_each(check);
}

/// All rows of a table.
pub(crate) fn rows(table: &'static str) -> Vec<Row> {
    let path = folder().join(format!("{table}.csv"));
    let mut reader = csv::Reader::from_path(&path).unwrap();
    let headers = reader.headers().unwrap().clone();
    let columns = |record: csv::StringRecord| {
        headers.iter().map(str::to_owned).zip(record.iter().map(str::to_owned)).collect()
    };
    reader.records().map(|record| Row { table, columns: columns(record.unwrap()) }).collect()
}

/// The names of all tables there are.
pub(crate) fn names() -> BTreeSet<String> {
    let files = fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path());
    files
        .filter(|path| path.extension().is_some_and(|e| e == "csv"))
        .map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned())
        .collect()
}

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/reference/physics")
}

/// Makes one test per table, named after it, and the list of their names.
#[macro_export]
macro_rules! tables {
    ($($name:ident => $check:expr;)*) => {
        /// The tables that are checked here.
        pub(crate) const TABLES: &[&str] = &[$(stringify!($name)),*];
        $(#[test] fn $name() { $crate::table::each(stringify!($name), $check); })*
    };
}
