//! A recorded warm-up: coolant temperature by seconds since engine start, read from a CSV log.
//!
//! In: the text of a log with a header line. Out: [`Warmup`], whose [`Warmup::coolant_after`] gives the coolant at
//! any second, between two rows on the straight line between them (a pause in the recording too), before the first
//! and after the last row held. An empty field means: not read yet, and is skipped. Columns that are not known
//! here are ignored; `t_s` and `coolant_c` must be there, `ambient_c` may be.
//!
//! Not here: opening a file. The logs and what to know of them: `fixtures/warmups/README.md`.

/// A recorded warm-up.
#[derive(Debug, Clone, PartialEq)]
pub struct Warmup {
    /// Seconds since the first row, and the coolant in °C; seconds grow strictly.
    coolant: Vec<(f64, f64)>,
    /// The middle value of the outside air temperatures, in °C.
    ambient: Option<f64>,
}

/// Why a text is no recorded warm-up.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum WarmupError {
    /// A column is missing.
    #[error("line 1: the log has no column `{column}`; it has: {has}")]
    NoColumn {
        /// The column that was looked for.
        column: &'static str,
        /// The columns there are.
        has: String,
    },
    /// A field is no number.
    #[error("line {line}, column `{column}`: `{text}` is not a number")]
    NotANumber {
        /// The line, counted from 1.
        line: usize,
        /// The column.
        column: &'static str,
        /// What stands there.
        text: String,
    },
    /// A temperature that no coolant and no air has.
    #[error("line {line}, column `{column}`: {text} °C is outside -60 to 200 °C")]
    Implausible {
        /// The line, counted from 1.
        line: usize,
        /// The column.
        column: &'static str,
        /// What stands there.
        text: String,
    },
    /// Time does not grow.
    #[error("line {line}: the time {text} s does not come after the row before")]
    TimeStandsStill {
        /// The line, counted from 1.
        line: usize,
        /// What stands there.
        text: String,
    },
    /// No row says anything.
    #[error("the log has no row with a coolant temperature")]
    Empty,
}

impl Warmup {
    /// Reads a log.
    ///
    /// # Errors
    /// [`WarmupError`] names line and column of the first thing that is wrong.
    pub fn parse(text: &str) -> Result<Self, WarmupError> {
        let mut lines = text.lines().enumerate();
        let header = lines.next().map_or("", |(_, line)| line);
        let place = |column: &'static str| header.split(',').position(|name| name.trim() == column);
        let needed =
            |column| place(column).ok_or_else(|| WarmupError::NoColumn { column, has: header.to_owned() });
        let (time, coolant) = (needed("t_s")?, needed("coolant_c")?);
        let ambient = place("ambient_c");

        let (mut rows, mut air): (Vec<(f64, f64)>, Vec<f64>) = (Vec::new(), Vec::new());
        let mut origin = None;
        for (at, line) in lines.filter(|(_, line)| !line.trim().is_empty()) {
            let fields: Vec<&str> = line.split(',').map(str::trim).collect();
            let field = |place: usize| fields.get(place).copied().unwrap_or("");
            let Some(t) = number(field(time), at + 1, "t_s")? else { continue };
            let t = t - *origin.get_or_insert(t);
            if let Some(air_now) =
                ambient.map_or(Ok(None), |place| celsius(field(place), at + 1, "ambient_c"))?
            {
                air.push(air_now);
            }
            let Some(coolant_now) = celsius(field(coolant), at + 1, "coolant_c")? else { continue };
            if rows.last().is_some_and(|&(before, _)| t <= before) {
                return Err(WarmupError::TimeStandsStill { line: at + 1, text: field(time).to_owned() });
            }
            rows.push((t, coolant_now));
        }
        if rows.is_empty() {
            return Err(WarmupError::Empty);
        }
        air.sort_by(f64::total_cmp);
        Ok(Self { coolant: rows, ambient: air.get(air.len() / 2).copied() })
    }

    /// The coolant in °C, `seconds` after the first row.
    pub fn coolant_after(&self, seconds: f64) -> f64 {
        let next = self.coolant.partition_point(|&(t, _)| t <= seconds);
        let before = next.checked_sub(1).and_then(|i| self.coolant.get(i));
        match (before, self.coolant.get(next)) {
            (Some(&(t0, c0)), Some(&(t1, c1))) => c0 + (c1 - c0) * (seconds - t0) / (t1 - t0),
            (Some(&(_, c)), None) | (None, Some(&(_, c))) => c,
            (None, None) => 20.0,
        }
    }

    /// The coolant in °C at the first row.
    pub fn start_celsius(&self) -> f64 {
        self.coolant_after(0.0)
    }

    /// The middle value of the recorded outside air temperatures, in °C.
    pub const fn ambient_celsius(&self) -> Option<f64> {
        self.ambient
    }
}

fn number(text: &str, line: usize, column: &'static str) -> Result<Option<f64>, WarmupError> {
    if text.is_empty() {
        return Ok(None);
    }
    match text.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(Some(value)),
        _ => Err(WarmupError::NotANumber { line, column, text: text.chars().take(40).collect() }),
    }
}

fn celsius(text: &str, line: usize, column: &'static str) -> Result<Option<f64>, WarmupError> {
    match number(text, line, column)? {
        Some(value) if !(-60.0..=200.0).contains(&value) => {
            Err(WarmupError::Implausible { line, column, text: text.to_owned() })
        }
        other => Ok(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn no_text_upsets_the_reader_and_what_it_takes_is_a_temperature(
            rows in "([0-9.eE,-]{0,12},[0-9.-]{0,6}\n){0,20}", at in -10.0..1e6,
        ) {
            if let Ok(warmup) = Warmup::parse(&format!("t_s,coolant_c\n{rows}")) {
                prop_assert!((-60.0..=200.0).contains(&warmup.coolant_after(at)));
            }
        }
    }

    #[test]
    fn between_two_rows_the_coolant_lies_on_the_line() {
        let log = "t_s,coolant_c,rpm,ambient_c\n1,20,0,5\n2,,0,5\n3,22,0,6\n103,32,0,\n";
        let warmup = Warmup::parse(log).unwrap();
        let cases: &[(&str, f64, f64)] = &[
            ("before the first row: held", -5.0, 20.0),
            ("the first row is second nought", 0.0, 20.0),
            ("an empty field is bridged", 1.0, 21.0),
            ("a pause is bridged", 52.0, 27.0),
            ("after the last row: held", 9_999.0, 32.0),
        ];
        for (what, at, want) in cases {
            assert_eq!(warmup.coolant_after(*at), *want, "{what}");
        }
        assert_eq!(warmup.ambient_celsius(), Some(5.0));
    }

    #[test]
    fn what_is_no_log_is_named_by_line_and_column() {
        let cases: &[(&str, &str)] = &[
            ("", "line 1: the log has no column `t_s`; it has: "),
            ("t_s,rpm\n1,2\n", "line 1: the log has no column `coolant_c`; it has: t_s,rpm"),
            ("t_s,coolant_c\n1,warm\n", "line 2, column `coolant_c`: `warm` is not a number"),
            ("t_s,coolant_c\n1,900\n", "line 2, column `coolant_c`: 900 °C is outside -60 to 200 °C"),
            ("t_s,coolant_c\n2,20\n2,21\n", "line 3: the time 2 s does not come after the row before"),
            ("t_s,coolant_c\n1,\n", "the log has no row with a coolant temperature"),
        ];
        for (log, want) in cases {
            assert_eq!(Warmup::parse(log).unwrap_err().to_string(), *want);
        }
    }
}
