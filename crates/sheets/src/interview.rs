//! The questions as a machine: an answer goes in, the next question or a finished sheet comes out.
//!
//! In: what a person types. Out: [`Asked`], [`AnswerOutcome`], and at any moment a whole sheet. Everything that was said stands in a
//! [`Draft`], so that nothing is lost and all is taken up again. Not here: the questions (`questions.rs`), terminals and browsers.
//!
//! There is always a whole sheet: what nobody gave is guessed. So each answer is checked at once, with all the others, by the same
//! code that reads a sheet; one that cannot be is asked for again, and nothing else is lost.

use std::collections::BTreeMap;

use events::{Sheet, SheetError, Signal, Source};
use serde::{Deserialize, Serialize};
use toml::{Table, Value};
use units::text::UnitSystem;

use crate::answers::{Answers, Begins};
use crate::compose::{self, Sources};
use crate::questions::{Kind, MUST, Part, QUESTIONS, Question, WRITE};
use crate::read;
use crate::shown::shown;

/// All that was said, and nothing else: what is kept.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Draft {
    /// The version of this form: 1.
    pub draft: u32,
    /// What the sheet is called where nobody says.
    pub name: String,
    /// Who answers, where that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,
    /// The sheet that is corrected.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub base: Option<String>,
    /// What was known before anybody was asked, as TOML: an identifier that was found. It is not asked for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub known: Option<String>,
    /// What was said, in its order.
    #[serde(default)]
    pub said: Vec<GivenAnswer>,
}

/// One answer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct GivenAnswer {
    /// The value's key.
    pub key: String,
    /// What was typed; absent: not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub answer: Option<String>,
    /// On which day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<String>,
}

/// A question, ready to be shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Asked {
    /// The value's key.
    pub key: &'static str,
    /// How many have been answered, with this one.
    pub number: usize,
    /// What is asked.
    pub asks: &'static str,
    /// What it means.
    pub means: &'static str,
    /// Where it is found.
    pub found: &'static str,
    /// The answers there are, where there are several: word and sentence.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub choices: Vec<[String; 2]>,
    /// What an empty answer takes, in words; absent: the value is left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stands: Option<String>,
    /// Whether that is a guess.
    pub guess: bool,
    /// How an answer may look; empty where the choices say it.
    pub like: &'static str,
    /// Whether the sheet can be written now.
    pub can_write: bool,
}

/// What came of an answer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "heard", rename_all = "kebab-case")]
pub enum AnswerOutcome {
    /// Taken; what comes next is asked.
    Taken {
        /// As what.
        says: String,
    },
    /// It cannot be, and is asked for again.
    Again {
        /// Why.
        why: String,
    },
    /// Help was asked for.
    Help {
        /// The help.
        says: String,
    },
    /// The sheet is to be written.
    Written,
    /// The person goes away; what was said is kept.
    Stopped,
}

/// No value has that key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TopicError;

/// One value of the sheet, as it stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Row {
    /// Its key.
    pub key: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// As people read it; empty where it is left out.
    pub shown: String,
    /// Where it comes from; absent where nobody says.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub source: Option<Source>,
}

/// The questions, as far as they have come.
#[derive(Debug, Clone)]
pub struct Interview {
    draft: Draft,
    answers: Answers,
    sources: Sources,
    /// A question that is asked out of turn.
    turn: Option<&'static Question>,
    /// Answers that were taken back, offered again.
    before: BTreeMap<&'static str, String>,
    written: bool,
}

impl Interview {
    /// A sheet that is made anew.
    pub fn new(name: &str) -> Self {
        Self::resume(Draft { draft: 1, name: name.to_owned(), ..Draft::default() })
    }

    /// A sheet that is corrected, from its text.
    ///
    /// # Errors
    /// Where the text is no sheet.
    pub fn correct(text: &str) -> Result<Self, SheetError> {
        let sheet = Sheet::parse(text)?;
        Ok(Self::resume(Draft {
            draft: 1,
            name: sheet.name,
            base: Some(text.to_owned()),
            ..Draft::default()
        }))
    }

    /// What was kept is taken up again. What it says that cannot be any more is asked anew.
    pub fn resume(draft: Draft) -> Self {
        let table = |text: &str| text.parse::<Table>().ok();
        let answers = match draft.base.as_deref() {
            Some(base) => Answers::of(&draft.name, table(base).unwrap_or_default(), Begins::Corrected),
            None => {
                let known = draft.known.as_deref().and_then(table).unwrap_or_default();
                Answers::of(&draft.name, known, Begins::Anew)
            }
        };
        let said = draft.said.clone();
        let mut own = Self {
            draft: Draft { said: Vec::new(), ..draft },
            answers,
            sources: Sources::new(),
            turn: None,
            before: BTreeMap::new(),
            written: false,
        };
        // What was taken once is taken again; only where the whole is no sheet any more, each is asked whether it can be.
        for checks in [Checks::AtTheEnd, Checks::EachOne] {
            let empty = own.clone();
            for one in &said {
                let Ok(question) = question(&one.key) else { continue };
                own.take(question, one.answer.as_deref(), one.at.as_deref().unwrap_or_default(), checks).ok();
            }
            if checks == Checks::EachOne || own.sheet().is_ok() {
                return own;
            }
            own = empty;
        }
        own
    }

    /// A sheet that is made anew, of which some values are known beforehand, as TOML; what was said before about the same tables goes.
    ///
    /// # Errors
    /// Where the text is no TOML.
    pub fn knowing(draft: Draft, known: &str) -> Result<Self, toml::de::Error> {
        let table: Table = known.parse()?;
        let is_known = |key: &str| crate::answers::at(&table, key).is_some();
        let said = draft.said.into_iter().filter(|one| !is_known(&one.key)).collect();
        Ok(Self::resume(Draft { known: Some(known.to_owned()), said, ..draft }))
    }

    /// Who answers.
    #[must_use]
    pub fn by(mut self, name: Option<String>) -> Self {
        self.draft.by = name.or(self.draft.by);
        self
    }

    /// All that was said so far.
    pub const fn draft(&self) -> &Draft {
        &self.draft
    }

    /// So many have been answered.
    pub fn answered(&self) -> usize {
        self.draft.said.len()
    }

    /// Whether the first three have been answered, or a sheet is corrected.
    pub fn can_write(&self) -> bool {
        let first = QUESTIONS.iter().filter(|q| q.part == Part::First);
        self.draft.base.is_some() || first.into_iter().all(|q| self.has_said(q.key))
    }

    fn has_said(&self, key: &str) -> bool {
        self.draft.said.iter().any(|said| said.key == key)
    }

    fn next(&self) -> Option<&'static Question> {
        if self.written {
            return None;
        }
        // Who corrects says himself which value.
        let open = |q: &&Question| {
            self.draft.base.is_none()
                && q.part != Part::Rare
                && self.answers.asks(q)
                && !self.has_said(q.key)
                && !self.answers.is_known(q)
        };
        self.turn.or_else(|| QUESTIONS.iter().find(open))
    }

    /// What is asked now; nothing where all has been asked, or the sheet is to be written.
    pub fn asks(&self) -> Option<Asked> {
        let question = self.next()?;
        let choices = match question.kind {
            Kind::Choice(all) => all
                .iter()
                .filter(|c| (c.fits)(&self.answers))
                .map(|c| [c.word.to_owned(), c.says.to_owned()])
                .collect(),
            _ => Vec::new(),
        };
        let before = self.before.get(question.key).cloned();
        let guess = self.answers.is_guessed(question) && before.is_none();
        Some(Asked {
            key: question.key,
            number: self.answered() + 1,
            asks: question.asks,
            means: question.means,
            found: question.found,
            choices,
            stands: before.or_else(|| self.stands(question, UnitSystem::Metric)),
            guess,
            like: like(question.kind),
            can_write: self.can_write(),
        })
    }

    fn stands(&self, question: &Question, units: UnitSystem) -> Option<String> {
        if question.key == WRITE {
            return Some("write".to_owned());
        }
        let value = self.answers.written(question)?;
        Some(shown(question.key, question.kind, &value, units))
    }

    /// Asks for this value next.
    ///
    /// # Errors
    /// Where no value has that key, or it is not asked for with the others as they are.
    pub fn turn_to(&mut self, key: &str) -> Result<(), TopicError> {
        let question = question(key).ok().filter(|q| self.answers.asks(q)).ok_or(TopicError)?;
        self.written = false;
        self.turn = Some(question);
        Ok(())
    }

    /// Hears an answer, or one of the words `?`, `back`, `skip`, `I don't know`, `done`, `stop`, `go KEY`.
    pub fn hear(&mut self, said: &str, today: &str) -> AnswerOutcome {
        let said = said.trim();
        let Some(question) = self.next() else { return AnswerOutcome::Written };
        let lower = said.to_lowercase().replace('’', "'");
        let again = |why: &str| AnswerOutcome::Again { why: why.to_owned() };
        match lower.as_str() {
            "?" | "help" | "h" => return AnswerOutcome::Help { says: self.help(question) },
            "stop" | "quit" | "exit" => return AnswerOutcome::Stopped,
            "back" | "b" => return self.back(),
            "done" | "write" if self.can_write() => {
                self.written = true;
                return AnswerOutcome::Written;
            }
            "done" | "write" => {
                return again("Three questions come first; `I don't know` is an answer to each.");
            }
            _ => {}
        }
        if let Some(key) = lower.strip_prefix("go ").filter(|key| *key != "on") {
            return match self.turn_to(key.trim()) {
                Ok(()) => AnswerOutcome::Taken { says: String::new() },
                Err(TopicError) => again("No value of that key is asked for; `sheet show` lists the keys."),
            };
        }
        if question.key == WRITE {
            return match lower.as_str() {
                "" | "yes" => {
                    self.written = true;
                    AnswerOutcome::Written
                }
                "go on" | "on" | "more" | "no" | "skip" | "2" => self.taken(question, Some("go on"), today),
                _ if is_unknown(question, &lower) => self.taken(question, Some("go on"), today),
                "1" => {
                    self.written = true;
                    AnswerOutcome::Written
                }
                _ => again("`write`, or `go on`."),
            };
        }
        let before = self.before.get(question.key).cloned();
        match said {
            "" => self.taken(question, before.as_deref(), today),
            _ if lower == "skip" || is_unknown(question, &lower) => self.taken(question, None, today),
            said => self.taken(question, Some(said), today),
        }
    }

    fn taken(&mut self, question: &'static Question, answer: Option<&str>, today: &str) -> AnswerOutcome {
        match self.take(question, answer, today, Checks::EachOne) {
            Ok(()) => {
                self.turn = None;
                self.before.remove(question.key);
                if self.next().is_none() {
                    self.written = true;
                }
                AnswerOutcome::Taken { says: self.says(question, answer.is_some()) }
            }
            Err(why) => AnswerOutcome::Again { why },
        }
    }

    /// Takes an answer in, or says why it cannot be; then all is as it was.
    fn take(
        &mut self,
        question: &'static Question,
        answer: Option<&str>,
        today: &str,
        checks: Checks,
    ) -> Result<(), String> {
        let kept = (self.answers.clone(), self.sources.clone());
        let mut said = vec![(question.key, answer.map(str::to_owned))];
        match answer {
            Some(answer) if question.key != WRITE => {
                let (plain, how, note) = read::source(answer);
                // One that cannot be read changes nothing, not even where the one before came from.
                let value = read::value(question, &self.answers, plain)?;
                self.answers.give(question.key, value);
                self.sources.insert(question.key.to_owned(), self.source(how, note, today));
            }
            _ => {
                self.sources.remove(question.key);
                self.answers.forget(question.key);
            }
        }
        // Nothing gates on a guessed identifier: a thermometer stands in.
        if answer.is_none() && question.key.starts_with("identifier.") {
            self.answers.give("check.signal", Value::String("spot".to_owned()));
            said.push(("check.signal", Some("spot".to_owned())));
        }
        if checks == Checks::EachOne
            && let Err(why) = self.checked(question)
        {
            (self.answers, self.sources) = kept;
            return Err(why);
        }
        for (key, answer) in said {
            self.draft.said.retain(|one| one.key != key);
            let at = Some(today.to_owned()).filter(|t| !t.is_empty());
            self.draft.said.push(GivenAnswer { key: key.to_owned(), answer, at });
        }
        Ok(())
    }

    fn source(&self, how: Source, note: Option<String>, today: &str) -> Table {
        let mut of = Table::new();
        let mut put = |key: &str, text: String| {
            if !text.is_empty() {
                of.insert(key.to_owned(), Value::String(text));
            }
        };
        put("how", how.word().to_owned());
        put("at", today.chars().take(40).collect());
        put("by", self.draft.by.as_deref().unwrap_or_default().chars().take(60).collect());
        put("note", note.unwrap_or_default());
        of
    }

    /// Whether all of it is a sheet; else why not, and what leads on.
    fn checked(&self, question: &Question) -> Result<(), String> {
        match Sheet::parse(&self.text()) {
            Ok(_) => Ok(()),
            Err(SheetError::OutOfRange { key, value, range, .. }) => {
                let other = QUESTIONS.iter().find(|q| q.key == key && q.key != question.key);
                let back = other.map_or(String::new(), |q| format!("; `go {}` leads to: {}", q.key, q.label));
                Err(format!("that makes {key} {value}; it must be {range}{back}"))
            }
            Err(e) => Err(e.to_string()),
        }
    }

    /// What was made of an answer.
    fn says(&self, question: &Question, given: bool) -> String {
        if question.key == WRITE {
            return String::new();
        }
        if question.key.starts_with("identifier.") && !given {
            return "Then a thermometer for now. `standpipe find` looks for the identifier.".to_owned();
        }
        let Some(stands) = self.stands(question, UnitSystem::Metric) else {
            return format!("{}: left out.", question.label);
        };
        if !self.answers.is_guessed(question) {
            return format!("{}: {stands}.", question.label);
        }
        let must = if MUST.contains(&question.key) { " No job begins before somebody gives it." } else { "" };
        let enters = job::GUESSES.iter().any(|guess| guess.key == question.key);
        let sheet = if enters { self.sheet().ok() } else { None };
        let cost = sheet.and_then(|(_, sheet)| job::worth(&sheet)).and_then(|worth| {
            let cost = worth.guesses.into_iter().find(|cost| cost.key == question.key)?;
            (cost.costs_ml >= 1.0).then(|| format!(" It makes the ± {:.0} mL wider.", cost.costs_ml))
        });
        format!("{}: taken as {stands}, marked as guessed.{}{must}", question.label, cost.unwrap_or_default())
    }

    fn back(&mut self) -> AnswerOutcome {
        let Some(last) = self.draft.said.pop() else {
            return AnswerOutcome::Again { why: "This is the first question.".to_owned() };
        };
        let Ok(question) = question(&last.key) else { return AnswerOutcome::Taken { says: String::new() } };
        let before = last.answer.clone();
        // From the beginning, without the last: what followed from it is gone, too.
        let mut own = Self::resume(self.draft.clone());
        own.before = core::mem::take(&mut self.before);
        if let Some(before) = before.filter(|_| question.key != WRITE) {
            own.before.insert(question.key, before);
        }
        own.turn = Some(question).filter(|q| own.answers.asks(q));
        *self = own;
        AnswerOutcome::Taken { says: String::new() }
    }

    fn help(&self, question: &Question) -> String {
        let mut out = format!("{} {}\nFound: {}", question.asks, question.means, question.found);
        let like = like(question.kind);
        if !like.is_empty() {
            out += &format!("\nLike: {like}");
        }
        if question.key == "check.signal" {
            for signal in Signal::ALL {
                if let Some(ml) = self.by_signal(*signal) {
                    out += &format!("\n{}: the level ±{ml:.0} mL at best. {}", signal.word(), means(*signal));
                }
            }
        }
        out + "\n`I don't know` or `skip`: a guess stands, marked so. `back`: the question before. `stop`: go on later.\n\
               `done`: write the sheet. Say where a value comes from in brackets: (measured), (maker, page 12)."
    }

    /// The ± by another signal, all else as it is.
    fn by_signal(&self, signal: Signal) -> Option<f64> {
        let (_, mut sheet) = self.sheet().ok()?;
        sheet.check.signal = signal;
        job::worth(&sheet).map(|worth| worth.expanded_ml)
    }

    fn text(&self) -> String {
        compose::text(&compose::table(&self.answers, &self.sources), &self.answers)
    }

    /// The sheet as it stands: its text, and what it says.
    ///
    /// # Errors
    /// Where the sheet that is corrected holds what the questions do not ask for and what does not go with an answer.
    pub fn sheet(&self) -> Result<(String, Sheet), SheetError> {
        let text = self.text();
        Sheet::parse(&text).map(|sheet| (text, sheet))
    }

    /// Every value that is asked for, as it stands.
    pub fn rows(&self, units: UnitSystem) -> Vec<Row> {
        let rows = QUESTIONS.iter().filter(|q| q.key != WRITE && self.answers.asks(q));
        rows.map(|q| Row {
            key: q.key,
            label: q.label,
            shown: self.stands(q, units).unwrap_or_default(),
            source: self.source_of(q),
        })
        .collect()
    }

    fn source_of(&self, question: &Question) -> Option<Source> {
        if self.answers.is_guessed(question) {
            return Some(Source::Guessed);
        }
        let based = || self.answers.base().get("provenance")?.as_table()?.get(question.key)?.as_table();
        let of = self.sources.get(question.key).or_else(based)?;
        of.get("how")?.as_str()?.parse().ok()
    }
}

/// When it is asked whether the whole is a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Checks {
    EachOne,
    AtTheEnd,
}

fn question(key: &str) -> Result<&'static Question, TopicError> {
    QUESTIONS.iter().find(|q| q.key == key).ok_or(TopicError)
}

/// Whether somebody says that he does not know.
fn is_unknown(question: &Question, lower: &str) -> bool {
    let words = ["i don't know", "don't know", "dont know", "i dont know", "not known", "unknown", "no idea"];
    let amount = question.key == "fluid.drain_ml" && ["nothing", "nothing of it", "none"].contains(&lower);
    amount || words.contains(&lower.trim_end_matches(['.', '!']))
}

/// How an answer may look.
const fn like(kind: Kind) -> &'static str {
    match kind {
        Kind::Text => "words",
        Kind::Choice(_) | Kind::Write => "",
        Kind::Band => "35-45 °C, 95-110 F, 40 °C",
        Kind::Temperature => "30 °C, 86 F",
        Kind::Idle => "700, 550-900",
        Kind::Volume => "6,5 L, 470 ml, 1/2 qt",
        Kind::Surface => "600 cm², 30 x 20 cm, 90 sq in",
        Kind::Place => "120mm -30mm",
        Kind::Length => "10 mm, 3/8 in",
        Kind::Depth => "0-5 mm",
        Kind::Wait => "60 s, 1-3 min",
        Kind::Seconds => "3 s",
        Kind::Torque => "40 Nm, 30 ft-lb, 15 in-lb, 3 kgf·cm",
        Kind::Angle => "0, 1.5 deg",
        Kind::Number => "7, 0x4D07",
        Kind::Decimal => "0.5",
        Kind::Yes => "yes, no",
        Kind::Positions => "P R N D, none",
        Kind::Days => "3 14, none",
        Kind::Chart => "20 26-36; 60 38-48",
        Kind::Looks => "off, trickle, then 2 L; idle, drips",
        Kind::List => "key 8 mm; torx 45",
    }
}

/// What gating by a signal asks of people.
const fn means(signal: Signal) -> &'static str {
    match signal {
        Signal::Fluid => "Nobody reads anything; it needs the identifier.",
        Signal::Coolant => "Only where the maker's band is one of coolant; after a stop it says less.",
        Signal::Spot => "Tape on the sump, a reading every few minutes from below.",
        Signal::Display => "The one inside reads it out.",
        Signal::Lamp => "The one inside reads it out; it says no more than its band.",
    }
}
