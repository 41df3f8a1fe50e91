//! Where everything stands on the screen.
//!
//! In: a view, what is typed, what was answered. Out: cells in a buffer of any size. From 80×24 on everything is
//! there; a smaller terminal keeps the word and the sentence. Paper is the terminal's own reverse.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};
use view::{Offer, Rounds, Surface, View};
use words::{Speech, args};

use super::{glyphs, pipe};

/// Everything that is painted.
pub struct Face<'a> {
    /// What is to be seen.
    pub view: &'a View,
    /// In which language and units.
    pub speech: Speech,
    /// The bottom line: what is typed, or what was answered.
    pub message: &'a str,
    /// What the scripted technician has done last, newest last; `None` where a person works.
    pub deeds: Option<&'a [String]>,
    /// Which page of the offers is shown.
    pub page: usize,
}

/// Rows kept for what can be told.
/// By definition: layout.
const OFFER_ROWS: u16 = 5;

/// The offers page by page, as many as there are rows, those that stand aside after the others: what has a key is seen.
pub fn pages(view: &View) -> Vec<Vec<&Offer>> {
    let rows = usize::from(OFFER_ROWS - 1);
    let [front, aside] =
        [false, true].map(|aside| view.offers.iter().filter(|o| o.aside == aside).collect::<Vec<_>>());
    let mut pages: Vec<Vec<&Offer>> =
        front.chunks(rows).chain(aside.chunks(rows)).map(<[_]>::to_vec).collect();
    if front.is_empty() {
        pages.insert(0, Vec::new());
    }
    pages
}

/// The offers that have a key now, `1` to `4`; after the last page comes the first.
pub fn keyed(view: &View, page: usize) -> Vec<&Offer> {
    let mut pages = pages(view);
    if pages.is_empty() { Vec::new() } else { pages.swap_remove(page % pages.len()) }
}

impl Face<'_> {
    /// Paints all of it.
    pub fn paint(&self, area: Rect, buffer: &mut Buffer) {
        buffer.reset();
        let style = self.style();
        buffer.set_style(area, style);
        let inner = self.frame(area, buffer, style);
        if inner.width < 60 || inner.height < 18 {
            self.small(inner, buffer, style);
            return;
        }
        self.head(inner, buffer, style);
        let body = Rect { y: inner.y + 2, height: inner.height.saturating_sub(OFFER_ROWS + 4), ..inner };
        if let Some(scale) = &self.view.scale {
            let shaft = Rect { width: pipe::WIDTH, ..body };
            pipe::draw(scale, self.speech, shaft, buffer, style);
        }
        let left = pipe::WIDTH + 1;
        let words = Rect { x: body.x + left, width: body.width.saturating_sub(left), ..body };
        self.words(words, buffer, style);
        let foot = Rect { y: body.bottom(), height: OFFER_ROWS + 2, ..inner };
        self.foot(foot, buffer, style);
    }

    fn style(&self) -> Style {
        match self.view.surface {
            Surface::Go | Surface::TooHot => Style::new().add_modifier(Modifier::REVERSED),
            Surface::Wait | Surface::NoReading => Style::new(),
        }
    }

    /// The frame of the surface; gives what is left inside.
    fn frame(&self, area: Rect, buffer: &mut Buffer, style: Style) -> Rect {
        if area.width < 4 || area.height < 4 {
            return area;
        }
        let row =
            |text: &str| text.repeat(usize::from(area.width)).chars().take(usize::from(area.width)).collect();
        let edges: Option<String> = match self.view.surface {
            Surface::Go => Some(row("█")),
            Surface::TooHot => Some(row("███   ")),
            Surface::NoReading => Some(row("╱  ")),
            Surface::Wait => None,
        };
        if let Some(edge) = edges {
            buffer.set_string(area.x, area.y, &edge, style);
            buffer.set_string(area.x, area.bottom() - 1, &edge, style);
        }
        for y in area.top()..area.bottom() {
            let side = match self.view.surface {
                Surface::Go => "█",
                Surface::NoReading if y % 2 == 0 => "╱",
                _ => " ",
            };
            buffer.set_string(area.x, y, side, style);
            buffer.set_string(area.right() - 1, y, side, style);
        }
        Rect { x: area.x + 2, y: area.y + 1, width: area.width - 4, height: area.height - 2 }
    }

    fn head(&self, area: Rect, buffer: &mut Buffer, style: Style) {
        let width = usize::from(area.width);
        let link = cut(&self.view.link, width / 2);
        let step = self.view.step.as_deref().map_or(String::new(), |s| format!(" · {s}"));
        let place = format!("{}{step}", self.view.place);
        let room = width.saturating_sub(link.chars().count() + 2);
        buffer.set_string(area.x, area.y, cut(&place, room), style);
        let x = area.right().saturating_sub(link.chars().count() as u16);
        buffer.set_string(x, area.y, link, style);
        rule(area.x, area.y + 1, area.width, buffer, style);
    }

    fn words(&self, area: Rect, buffer: &mut Buffer, style: Style) {
        let bold = style.add_modifier(Modifier::BOLD);
        let mut page = Column { area, y: area.y, buffer };
        let roomy = area.height >= 26 && glyphs::width(self.view.word, 2) <= usize::from(area.width);
        for row in glyphs::rows(self.view.word, if roomy { 2 } else { 1 }) {
            page.line(&row, style);
        }
        page.gap();
        page.wrapped(&self.view.now, 2, bold);
        if let Some(clock) = &self.view.clock {
            page.wrapped(&format!("{}  {}", clock.text, clock.what), 1, bold);
        }
        if let Some(rounds) = &self.view.rounds {
            page.wrapped(&positions(rounds), 1, bold);
        }
        page.wrapped(&self.view.why, 3, style);
        if let Some(next) = self.view.next {
            page.wrapped(&self.speech.with("say-next", &args!(what = next)), 1, style);
        }
        if let Some(find) = &self.view.find {
            page.wrapped(find, 2, style);
        }
        if let Some(balance) = &self.view.balance {
            page.wrapped(&self.speech.with("say-balance", &args!(what = balance.as_str())), 2, style);
        }
        match self.deeds {
            Some(deeds) => {
                let room = usize::from(page.left().min(4));
                for deed in deeds.iter().rev().take(room).rev() {
                    page.wrapped(deed, 1, style);
                }
            }
            None => self.open_and_cautions(&mut page, style),
        }
    }

    fn open_and_cautions(&self, page: &mut Column<'_>, style: Style) {
        for open in &self.view.open {
            page.wrapped(&self.speech.with("term-open", &args!(what = *open)), 1, style);
        }
        for caution in &self.view.cautions {
            page.wrapped(&format!("! {caution}"), 2, style);
        }
    }

    fn foot(&self, area: Rect, buffer: &mut Buffer, style: Style) {
        rule(area.x, area.y, area.width, buffer, style);
        let width = usize::from(area.width);
        let mut y = area.y + 1;
        if self.deeds.is_none() {
            for (n, offer) in keyed(self.view, self.page).into_iter().enumerate() {
                let twice = format!("  {}", self.speech.text("term-twice"));
                let hold = if offer.hold { twice.as_str() } else { "" };
                let weight = if offer.primary { style.add_modifier(Modifier::BOLD) } else { style };
                buffer.set_string(
                    area.x,
                    y,
                    cut(&format!("{}  {}{hold}", n + 1, offer.label), width),
                    weight,
                );
                y += 1;
            }
            let pages = pages(self.view).len().max(1);
            let more = match self.page % pages {
                0 => self.speech.text("term-more").to_owned(),
                page => self.speech.with("term-more-page", &args!(page = page + 1, pages = pages)),
            };
            let undo = self.view.undo.as_deref().map_or(String::new(), |what| {
                format!("   {}", self.speech.with("term-undo", &args!(what = what)))
            });
            let [other, leave] = ["term-other-seat", "term-leave"].map(|name| self.speech.text(name));
            let keys = format!("{more}   {other}{undo}   {leave}");
            buffer.set_string(area.x, area.y + OFFER_ROWS, cut(&keys, width), style);
        }
        let bold = style.add_modifier(Modifier::BOLD);
        buffer.set_string(area.x, area.bottom() - 1, cut(self.message, width), bold);
    }

    fn small(&self, area: Rect, buffer: &mut Buffer, style: Style) {
        let bold = style.add_modifier(Modifier::BOLD);
        let mut page = Column { area, y: area.y, buffer };
        page.wrapped(self.view.word, 1, bold);
        page.wrapped(&self.view.now, 3, bold);
        if let Some(clock) = &self.view.clock {
            page.wrapped(&format!("{} {}", clock.text, clock.what), 2, style);
        }
        page.wrapped(&self.view.link, 1, style);
        page.wrapped(self.message, 2, style);
    }
}

/// Text from top to bottom.
struct Column<'a> {
    area: Rect,
    y: u16,
    buffer: &'a mut Buffer,
}

impl Column<'_> {
    fn left(&self) -> u16 {
        self.area.bottom().saturating_sub(self.y)
    }

    fn gap(&mut self) {
        self.y += 1;
    }

    fn line(&mut self, text: &str, style: Style) {
        if self.y < self.area.bottom() {
            self.buffer.set_string(self.area.x, self.y, cut(text, usize::from(self.area.width)), style);
            self.y += 1;
        }
    }

    fn wrapped(&mut self, text: &str, most: usize, style: Style) {
        for line in wrap(text, usize::from(self.area.width), most) {
            self.line(&line, style);
        }
    }
}

/// Where the selector stands is in brackets, where it is waited for in parentheses.
fn positions(rounds: &Rounds) -> String {
    let name = |(place, name): (usize, &String)| match (rounds.at == Some(place), rounds.left_s) {
        (true, _) => format!("[{name}]"),
        (false, 0) if place == rounds.next => format!("({name})"),
        (false, _) => name.clone(),
    };
    let row: Vec<String> = rounds.positions.iter().enumerate().map(name).collect();
    format!("{} · {}", row.join(" "), rounds.says)
}

fn rule(x: u16, y: u16, width: u16, buffer: &mut Buffer, style: Style) {
    buffer.set_string(x, y, "─".repeat(usize::from(width)), style);
}

fn cut(text: &str, width: usize) -> String {
    if text.chars().count() <= width {
        return text.to_owned();
    }
    text.chars().take(width.saturating_sub(1)).chain(['…']).collect()
}

/// At most so many lines; what does not fit ends in an ellipsis.
fn wrap(text: &str, width: usize, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ').filter(|w| !w.is_empty()) {
        let full = lines.len() == most;
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= width => {
                line.push(' ');
                line.push_str(word);
            }
            Some(line) if full => {
                *line = cut(&format!("{line} {word}…"), width);
                break;
            }
            _ => lines.push(cut(word, width)),
        }
    }
    lines
}
