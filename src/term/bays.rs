//! All bays in a terminal: two rows each, the most urgent on top.
//!
//! In: rows of the board. Out: cells. Black and white; `go` on paper, as everywhere. Not here: which comes first (`crates/view`).

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};
use view::{BayRow, Surface};

/// Everything that is painted.
pub struct Bays<'a> {
    /// In their order.
    pub rows: &'a [BayRow],
    /// The bottom line.
    pub message: &'a str,
}

/// Rows of a bay: who, word and time; what hands do.
/// By definition: layout.
const ROWS: u16 = 2;
/// Where the word and the time begin.
/// By definition: layout. Longer names are cut there.
const WORD_AT: u16 = 18;
const TIME_AT: u16 = 38;

impl Bays<'_> {
    /// Paints as many as there is room for; how many more there are stands at the bottom.
    pub fn paint(&self, area: Rect, buffer: &mut Buffer) {
        buffer.reset();
        let Some(bottom) = area.height.checked_sub(1) else { return };
        let room = usize::from(bottom / ROWS);
        for (row, at) in self.rows.iter().take(room).zip((area.y..).step_by(usize::from(ROWS))) {
            row_of(row, Rect { y: at, height: ROWS, ..area }, buffer);
        }
        let hidden = self.rows.len().saturating_sub(room);
        let more = if hidden > 0 { format!("+{hidden}  ") } else { String::new() };
        put(buffer, area, 0, bottom, &format!("{more}{}", self.message), Style::new());
    }
}

fn row_of(row: &BayRow, area: Rect, buffer: &mut Buffer) {
    let bold = Style::new().add_modifier(Modifier::BOLD);
    let paper = if row.surface == Surface::Go { bold.add_modifier(Modifier::REVERSED) } else { bold };
    let name: String = row.bay.chars().take(usize::from(WORD_AT - 1)).collect();
    put(buffer, area, 0, 0, &name, bold);
    put(buffer, area, WORD_AT, 0, &format!(" {} ", row.word), paper);
    if let Some(clock) = &row.clock {
        put(buffer, area, TIME_AT, 0, &format!("{} {}", clock.text, clock.what), Style::new());
    }
    put(buffer, area, 2, 1, &row.now, Style::new());
}

fn put(buffer: &mut Buffer, area: Rect, x: u16, y: u16, text: &str, style: Style) {
    let left = usize::from(area.width.saturating_sub(x));
    if left > 0 && y < area.height {
        buffer.set_stringn(area.x + x, area.y + y, text, left, style);
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use events::{Forecast, Interval, JobView, People, Reason, Sheet, Snapshot, Verdict};
    use std::time::Duration;
    use view::KnownBay;
    use words::{Lang, Speech};

    use super::*;

    fn painted(rows: &[BayRow], width: u16, height: u16) -> String {
        let area = Rect::new(0, 0, width, height);
        let mut buffer = Buffer::empty(area);
        Bays { rows, message: "message" }.paint(area, &mut buffer);
        let line = |y| (0..width).map(|x| buffer[(x, y)].symbol()).collect::<String>().trim_end().to_owned();
        (0..height).map(line).collect::<Vec<_>>().join("\n")
    }

    #[test]
    fn each_bay_has_its_word_its_time_and_what_hands_do_in_every_language() {
        let sheet = Sheet::parse(include_str!("../../fixtures/sheets/demo-six-speed.toml")).unwrap();
        let mut go = Snapshot { verdict: Verdict::Go, reasons: vec![Reason::InBand], ..Snapshot::default() };
        go.job = Some(JobView::new(1, &sheet, go.at, None, People::default()));
        let closes = Interval { low: 60.0, median: 90.0, high: 120.0, coverage: 0.8 };
        go.forecast = Some(Forecast { closes_in: Some(closes), ..Forecast::default() });
        let heard =
            |bay, state| KnownBay { bay, present: true, state: Some(state), age: Some(Duration::ZERO) };
        let quiet = Snapshot::default();
        for &lang in Lang::ALL {
            let speech = Speech { lang, ..Speech::default() };
            let rows = view::rows(&[heard("right", &quiet), heard("left", &go)], speech);
            let text = painted(&rows, 80, 24);
            let lines: Vec<&str> = text.lines().collect();
            let [first, second, ..] = lines.as_slice() else { panic!("{text}") };
            let now = &rows.first().unwrap().now;
            // A letter of two cells leaves a blank one behind it.
            let close = |text: &str| text.split_whitespace().collect::<String>();
            assert!(
                first.starts_with("left") && close(first).contains(&close(rows.first().unwrap().word)),
                "{text}"
            );
            assert!(close(second) == close(now), "{lang}: `{now}` is cut in 80 columns: {text}");
            assert!(text.ends_with("message"));
        }
    }

    #[test]
    fn where_there_is_no_room_it_says_how_many_are_hidden_and_never_fails() {
        let quiet = Snapshot::default();
        let heard = |bay| KnownBay { bay, present: true, state: Some(&quiet), age: Some(Duration::ZERO) };
        let rows = view::rows(&["a", "b", "c", "d"].map(heard), Speech::default());
        assert!(painted(&rows, 40, 5).ends_with("+2  message"));
        for (width, height) in [(0, 0), (1, 1), (5, 2), (300, 1)] {
            painted(&rows, width, height);
        }
    }
}
