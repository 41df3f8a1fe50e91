//! What a person sees of the search, line by line, and what he types.
//!
//! In: lines of the socket, typed lines. Out: lines for people or for programs, requests. Not here: the search itself.

use events::{
    Body, Candidate, Caution, Event, FindStage, FindView, FoundIdentifier, Request, Snapshot, SocketLine,
    Surface, Word,
};
use units::text::{self, show_celsius};

use crate::events::minutes;
use crate::failure::Failure;
use crate::screen::Screen;

/// See the module's words.
pub struct Show {
    screen: Screen,
    known: Snapshot,
    said: Option<FindView>,
}

/// What a typed line is.
pub enum Typed {
    /// To be told.
    Tell(Request),
    /// An end for now.
    Leave,
    Nothing,
}

const HELP: &str = "Type what the thermometer shows and where: `38.5C tape`. Type `yes` to confirm the one that leads. Type `quit` to stop; it is kept.";

impl Show {
    pub fn new(screen: Screen, snapshot: &Snapshot) -> Result<Self, Failure> {
        let mut show = Self { screen, known: snapshot.clone(), said: None };
        if !screen.is_json() {
            for caution in CAUTIONS {
                screen.line(caution.says())?;
            }
            screen.line("Fluid in it, nothing taken apart: a drained one must not be started.")?;
            screen.line(HELP)?;
        }
        if let Some(find) = snapshot.find.clone() {
            show.find(&find)?;
        }
        Ok(show)
    }

    /// Whether a job runs.
    pub fn job_runs(&self) -> bool {
        self.known.running().is_some()
    }

    /// A line of the socket.
    pub fn line(&mut self, raw: &str, line: Option<&SocketLine>) -> Result<(), Failure> {
        match line {
            Some(SocketLine::Event(event)) => self.event(raw, event),
            Some(SocketLine::Word(Word::Refused { says, .. })) if !self.screen.is_json() => {
                self.screen.line(&format!("Not taken: {says}"))
            }
            Some(SocketLine::Word(_)) if self.screen.is_json() => self.screen.json_line(raw),
            _ => Ok(()),
        }
    }

    fn event(&mut self, raw: &str, event: &Event) -> Result<(), Failure> {
        self.known.apply(event);
        if self.screen.is_json() {
            return self.screen.json_line(raw);
        }
        match &event.body {
            Body::Find(find) => self.find(find),
            Body::Candidate(candidate) => self.candidate(candidate),
            Body::Advice(said) if self.job_runs() => {
                let units = self.screen.units;
                self.screen.line(&format!(
                    "Job: {}",
                    said.sentence(events::Role::Under, words::Lang::En, |v| text::show_millilitres(v, units))
                ))
            }
            Body::Link(change) if change.ends_contact() => {
                self.screen.line("The vehicle does not answer now. It is tried again.")
            }
            Body::Result(result) => {
                let units = self.screen.units;
                self.screen.line(&format!(
                    "Job: {}",
                    result.headline(words::Lang::En, |v| text::show_millilitres(v, units))
                ))
            }
            _ => Ok(()),
        }
    }

    /// How it stands, where that is news to a person.
    fn find(&mut self, find: &FindView) -> Result<(), Failure> {
        let same = |before: &FindView| {
            let goes_on = find.stage == FindStage::Search && find.asked < before.asked + LINE_EVERY;
            (before.stage, before.next) == (find.stage, find.next)
                && (goes_on || before.left == find.left)
                && (find.stage != FindStage::Search || goes_on)
        };
        if self.screen.is_json() || self.said.as_ref().is_some_and(same) {
            return Ok(());
        }
        let before = self.said.replace(find.clone());
        let may = match find.left {
            1 => "1 may be it".to_owned(),
            n => format!("{n} may be it"),
        };
        let counted = match find.stage {
            FindStage::Search => {
                let time = find.left_seconds.map_or(String::new(), |s| format!(", {} left", minutes(s)));
                format!(
                    "Search: {} asked, {} to go{time}; {} can be read, {may}.",
                    find.asked, find.planned, find.answered
                )
            }
            FindStage::Watch => format!("Watch: {may}."),
            FindStage::Found => "Found.".to_owned(),
            FindStage::NotFound => "Not found: nothing that answers warms as the fluid does.".to_owned(),
            FindStage::Stopped => {
                format!("Stopped: {}.", find.why.as_deref().unwrap_or("the cause is not known"))
            }
        };
        let next = if self.job_runs() { find.next.says_in_job() } else { Some(find.next.says()) };
        // Once is enough while nothing else is to be done.
        let next = next.filter(|_| before.is_none_or(|before| before.next != find.next));
        let next = next.map_or(String::new(), |says| format!("\n  {}", self.screen.strong(says)));
        self.screen.line(&format!("{counted}{next}"))
    }

    fn candidate(&self, candidate: &Candidate) -> Result<(), Failure> {
        let leads = self.known.candidates.first().is_some_and(|first| first.place() == candidate.place());
        if !leads || candidate.score < TOLD_ABOVE {
            return Ok(());
        }
        let shows = candidate
            .celsius
            .map_or(String::new(), |t| format!(", shows {}", show_celsius(t, self.screen.units)));
        let percent = (100.0 * candidate.score).floor();
        self.screen.line(&format!(
            "  leads: {} by {}, {percent:.0} %{shows}",
            candidate.place(),
            candidate.encoding
        ))
    }

    /// It was found, and written or not.
    pub fn found(&self, found: &FoundIdentifier, written: Option<&str>) -> Result<(), Failure> {
        if self.screen.is_json() {
            return Ok(());
        }
        let place = events::place(&found.identifier.header, found.identifier.service, found.identifier.id);
        let mut text = format!("Found: {} by {}.", self.screen.strong(&place), found.encoding);
        if let Some(written) = written {
            text += &format!("\n{written}");
        }
        if found.takes_over {
            text += "\nThe check goes by it from now on.";
        }
        self.screen.line(&text)
    }

    /// A word to whoever typed.
    pub fn answer(&self, text: &str) -> Result<(), Failure> {
        if self.screen.is_json() {
            crate::screen::say(text);
            return Ok(());
        }
        self.screen.line(text)
    }

    /// What was typed.
    pub fn typed(&self, line: &str) -> Result<Typed, Failure> {
        let line = line.trim();
        let words: Vec<&str> = line.split_whitespace().filter(|word| *word != "spot").collect();
        match words.as_slice() {
            [] => return Ok(Typed::Nothing),
            ["quit" | "q"] => return Ok(Typed::Leave),
            ["yes"] => {
                if let Some(leads) = self.known.candidates.first() {
                    return Ok(Typed::Tell(Request::Candidate {
                        service: leads.service,
                        identifier: leads.id,
                        header: leads.header.clone(),
                    }));
                }
                self.answer("Nothing leads yet.")?;
                return Ok(Typed::Nothing);
            }
            [reads, surface] => {
                if let (Ok(celsius), Ok(surface)) = (text::celsius(reads), surface.parse::<Surface>()) {
                    return Ok(Typed::Tell(Request::Spot { celsius, surface }));
                }
            }
            [reads] if text::celsius(reads).is_ok() => {
                let surfaces: Vec<&str> = Surface::ALL.iter().map(|s| s.word()).collect();
                self.answer(&format!("Say where it was held, too: {}.", surfaces.join(", ")))?;
                return Ok(Typed::Nothing);
            }
            _ => {}
        }
        self.answer(HELP)?;
        Ok(Typed::Nothing)
    }
}

/// Shown before anything is asked: somebody will be below a vehicle that runs.
const CAUTIONS: [Caution; 5] = [
    Caution::MakerFirst,
    Caution::FourStands,
    Caution::Ventilation,
    Caution::RunningEngine,
    Caution::HotFluid,
];
/// While identifiers are asked, a line is written after so many.
/// Own choice: a line each half a minute at the usual pace; oftener hides what was found.
const LINE_EVERY: u32 = 200;
/// Less probable ones are not named to people.
/// Own choice: what is less than one in five sends nobody to a place of the vehicle.
const TOLD_ABOVE: f64 = 0.2;
