//! The standpipe: two walls, the fluid between them, a crossbar as thick as the uncertainty, the band as a bracket.
//!
//! In: a [`view::Scale`] and an area. Out: cells, two steps a row. Not here: what the numbers mean.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use units::Celsius;
use view::Scale;
use words::Speech;

/// Columns that the whole drawing takes.
/// By definition: layout.
pub const WIDTH: u16 = 20;
/// Columns between the walls.
/// By definition: layout.
const BORE: u16 = 6;
/// Where the left wall stands.
/// By definition: layout.
const WALL: u16 = 5;

/// Draws the pipe into `area`.
pub fn draw(scale: &Scale, speech: Speech, area: Rect, buffer: &mut Buffer, style: Style) {
    if area.height < 4 || area.width < WIDTH {
        return;
    }
    let pipe = Pipe { scale, area, speech };
    pipe.walls(buffer, style);
    pipe.fluid(buffer, style);
    pipe.bracket(buffer, style);
}

struct Pipe<'a> {
    scale: &'a Scale,
    area: Rect,
    speech: Speech,
}

impl Pipe<'_> {
    /// The half row of a temperature, counted from the bottom; outside the scale it stands at the end.
    fn half(&self, celsius: f64) -> i32 {
        let halves = f64::from(self.area.height) * 2.0;
        let share = (celsius - self.scale.low) / (self.scale.high - self.scale.low).max(1.0);
        (share * halves).clamp(0.0, halves - 1.0).floor() as i32
    }

    fn row(&self, celsius: f64) -> u16 {
        self.area.bottom().saturating_sub(1).saturating_sub(self.half(celsius) as u16 / 2)
    }

    fn walls(&self, buffer: &mut Buffer, style: Style) {
        for y in self.area.top()..self.area.bottom() {
            buffer.set_string(self.area.x + WALL, y, "┃", style);
            buffer.set_string(self.area.x + WALL + BORE + 1, y, "┃", style);
        }
        let mut celsius = self.scale.low;
        while celsius <= self.scale.high {
            let text = format!("{:>4}╶", self.degrees(celsius));
            buffer.set_string(self.area.x, self.row(celsius), text, style);
            celsius += 10.0;
        }
    }

    fn fluid(&self, buffer: &mut Buffer, style: Style) {
        let ahead = self.scale.ahead.map(|[low, high]| (self.half(low), self.half(high)));
        let bar = self.scale.at.map(|at| {
            let u = self.scale.u.unwrap_or(0.0);
            (self.half(at - u), self.half(at + u))
        });
        let level = self.scale.at.map(|at| self.half(at));
        for row in 0..i32::from(self.area.height) {
            let (lower, upper) = (2 * row, 2 * row + 1);
            let within = |span: Option<(i32, i32)>, half| span.is_some_and(|(a, b)| (a..=b).contains(&half));
            let cell = match (within(bar, lower), within(bar, upper)) {
                (true, true) => "█",
                (true, false) => "▄",
                (false, true) => "▀",
                (false, false) if level.is_some_and(|l| upper <= l) => "░",
                _ if within(ahead, lower) || within(ahead, upper) => "╌",
                _ => " ",
            };
            let y = self.area.bottom() - 1 - row as u16;
            buffer.set_string(self.area.x + WALL + 1, y, cell.repeat(usize::from(BORE)), style);
        }
    }

    fn bracket(&self, buffer: &mut Buffer, style: Style) {
        let x = self.area.x + WALL + BORE + 3;
        let (bottom, top) = (self.row(self.scale.band[0]), self.row(self.scale.band[1]));
        for y in top..=bottom {
            buffer.set_string(x, y, "┃", style);
        }
        buffer.set_string(x - 1, top, "━┓", style);
        buffer.set_string(x - 1, bottom, "━┛", style);
        buffer.set_string(x + 2, top, self.degrees(self.scale.band[1]), style);
        buffer.set_string(x + 2, bottom, self.degrees(self.scale.band[0]), style);
    }

    fn degrees(&self, celsius: f64) -> String {
        let text = self.speech.celsius(Celsius::clamped(celsius));
        let number = text.split('\u{202f}').next().unwrap_or_default();
        number.parse::<f64>().map_or_else(|_| number.to_owned(), |n| format!("{n:.0}"))
    }
}
