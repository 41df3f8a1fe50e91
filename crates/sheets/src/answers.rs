//! What has been given so far, and what stands where nothing was.
//!
//! In: values by key, the sheet that is corrected where there is one. Out: the value of a key: given, else as the sheet had it, else
//! guessed. Not here: how an answer is read (`read.rs`), in which order it is asked (`interview.rs`).

use std::collections::{BTreeMap, BTreeSet};

use toml::{Table, Value};

use crate::questions::{BEFORE, Kind, QUESTIONS, Question};

/// The values that a sheet is made of.
#[derive(Debug, Clone, Default)]
pub(crate) struct Answers {
    given: BTreeMap<&'static str, Value>,
    base: Table,
    begins: Begins,
    stem: String,
    /// What the sheet that is corrected could have said and did not: it stays left out.
    silent: BTreeSet<&'static str>,
    /// How each question stands with the answers as they are.
    standing: BTreeMap<&'static str, Standing>,
}

/// From what the answers begin.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(crate) enum Begins {
    /// A sheet is made; the values that there are were known beforehand.
    #[default]
    Anew,
    /// The values are those of a sheet that is corrected.
    Corrected,
}

/// How a question stands.
#[derive(Debug, Clone)]
struct Standing {
    /// What stands: given, else as the sheet had it, else guessed.
    value: Option<Value>,
    /// It applies, and there is a choice.
    asks: bool,
    /// What stands was given.
    given: bool,
}

impl Answers {
    /// Of a sheet that is made anew, or of one that is corrected. What the old one does not call guessed is given.
    pub(crate) fn of(stem: &str, base: Table, begins: Begins) -> Self {
        let guessed: Vec<String> = base
            .get("guessed")
            .and_then(Value::as_array)
            .map(|all| all.iter().filter_map(Value::as_str).map(str::to_owned).collect())
            .unwrap_or_default();
        let mut answers = Self { base, begins, stem: stem.to_owned(), ..Self::default() };
        for question in QUESTIONS {
            let table = question.key.split('.').next().unwrap_or(question.key);
            let named = guessed.iter().any(|g| g == question.key || g == table);
            if let Some(value) = answers.based(question.key).filter(|_| !named) {
                answers.given.insert(question.key, value);
            }
        }
        answers.stand();
        // In their order: what applies hangs on those above.
        for question in QUESTIONS.iter().filter(|_| begins == Begins::Corrected) {
            // The selector's values hang on whether its positions are silent: asked anew each time.
            if (question.when)(&answers) && answers.based(question.key).is_none() {
                answers.silent.insert(question.key);
            }
        }
        answers.stand();
        answers
    }

    /// The sheet that is corrected; empty where there is none.
    pub(crate) const fn base(&self) -> &Table {
        &self.base
    }

    pub(crate) fn give(&mut self, key: &'static str, value: Value) {
        self.given.insert(key, value);
        self.stand();
    }

    /// Nobody gives it any more.
    pub(crate) fn forget(&mut self, key: &str) {
        self.given.remove(key);
        self.stand();
    }

    /// How all questions stand now. In their order: each looks only at those above.
    fn stand(&mut self) {
        self.standing.clear();
        for question in QUESTIONS {
            let applies = (question.when)(self);
            let only = if applies { self.only_choice(question) } else { None };
            let fitting = |value: &Value| self.fits(question, value);
            let given = self.given.get(question.key).cloned().filter(fitting);
            // An answer that no longer fits what was answered before it stands no more.
            let based = || self.based(question.key).filter(fitting);
            let asks = applies && only.is_none();
            let is_given = given.is_some();
            let value = given.or_else(based).or(only).or_else(|| (question.guess)(self)).filter(|_| applies);
            self.standing.insert(question.key, Standing { value, asks, given: is_given });
        }
    }

    /// It was known before anybody was asked.
    pub(crate) fn is_known(&self, question: &Question) -> bool {
        self.begins == Begins::Anew && self.based(question.key).is_some()
    }

    /// The identifier came from a search, not from a person.
    pub(crate) fn was_found(&self) -> bool {
        let found = events::Source::Found.word();
        self.base
            .get("provenance")
            .and_then(|p| p.get("identifier")?.get("how")?.as_str())
            .is_some_and(|how| how == found)
    }

    /// As it was given.
    pub(crate) fn given(&self, key: &str) -> Option<&Value> {
        self.given.get(key)
    }

    pub(crate) fn given_number(&self, key: &str) -> Option<f64> {
        self.given.get(key).and_then(number)
    }

    /// As the sheet that is corrected has it.
    fn based(&self, key: &str) -> Option<Value> {
        if key == BEFORE {
            let rows = self.base.get("look").and_then(Value::as_array);
            let (_, before) = rows?.split_last()?;
            return (!before.is_empty()).then(|| Value::Array(before.to_vec()));
        }
        at(&self.base, key).cloned()
    }

    /// Given, else as the sheet had it, else guessed; none where it is not asked for or left out.
    pub(crate) fn value(&self, key: &str) -> Option<&Value> {
        self.standing.get(key)?.value.as_ref()
    }

    /// What the sheet says: as [`Self::value`], but nothing where a sheet that is corrected was silent and nobody spoke since.
    pub(crate) fn written(&self, question: &Question) -> Option<Value> {
        let is_silent = self.silent.contains(question.key) && self.given(question.key).is_none();
        self.value(question.key).filter(|_| !is_silent).cloned()
    }

    /// The one answer that there is, where there is no choice.
    fn only_choice(&self, question: &Question) -> Option<Value> {
        let Kind::Choice(choices) = question.kind else { return None };
        let mut fitting = choices.iter().filter(|c| (c.fits)(self));
        let only = fitting.next()?;
        fitting.next().is_none().then(|| Value::String(only.word.to_owned()))
    }

    fn fits(&self, question: &Question, value: &Value) -> bool {
        let Kind::Choice(choices) = question.kind else { return true };
        choices.iter().any(|c| Some(c.word) == value.as_str() && (c.fits)(self))
    }

    /// Whether it is asked: it applies, and there is a choice.
    pub(crate) fn asks(&self, question: &Question) -> bool {
        self.standing.get(question.key).is_some_and(|standing| standing.asks)
    }

    /// Whether what stands is a guess.
    pub(crate) fn is_guessed(&self, question: &Question) -> bool {
        let Some(standing) = self.standing.get(question.key) else { return false };
        !standing.given && standing.asks && question.key != "name" && self.written(question).is_some()
    }

    pub(crate) fn word(&self, key: &str) -> String {
        self.value(key).and_then(|v| v.as_str().map(str::to_owned)).unwrap_or_default()
    }

    pub(crate) fn is(&self, key: &str, words: &[&str]) -> bool {
        words.contains(&self.word(key).as_str())
    }

    /// It is moved through positions.
    pub(crate) fn moves_the_selector(&self) -> bool {
        let question = QUESTIONS.iter().find(|q| q.key == "before.selector.positions");
        let written = question.and_then(|q| self.written(q));
        written.and_then(|v| v.as_array().map(|p| !p.is_empty())).unwrap_or(false)
    }

    /// One temperature was given for the band.
    pub(crate) fn has_single_band(&self) -> bool {
        let band = self.value("check.band_c");
        let both: Vec<f64> =
            band.and_then(Value::as_array).map_or_else(Vec::new, |b| b.iter().filter_map(number).collect());
        matches!(both.as_slice(), [low, high] if low == high)
    }

    /// The name where nobody gives one.
    pub(crate) fn stem(&self) -> Option<Value> {
        Some(Value::String(self.stem.chars().take(80).collect()))
    }
}

pub(crate) fn number(value: &Value) -> Option<f64> {
    value.as_float().or_else(|| value.as_integer().map(|n| n as f64))
}

/// The value at `fluid.total_ml`; of the looks the last one.
pub(crate) fn at<'t>(table: &'t Table, key: &str) -> Option<&'t Value> {
    let (first, rest) = key.split_once('.').map_or((key, None), |(first, rest)| (first, Some(rest)));
    let found = table.get(first)?;
    let Some(rest) = rest else { return Some(found) };
    match found {
        Value::Table(inner) => at(inner, rest),
        Value::Array(rows) => at(rows.last()?.as_table()?, rest),
        _ => None,
    }
}
