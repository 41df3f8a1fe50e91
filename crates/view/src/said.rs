//! What a person says on a screen, as text, made into a request: the same reading of amounts as on the command line.
//!
//! In: the word of a request and its fields as they were typed. Out: a [`Request`], or what is wrong in a sentence.

use events::{People, Precondition, Request, Surface, Task};
use serde::{Deserialize, Serialize};
use units::text;

/// A request with its fields as text: `2.4L`, `22C`, `0.1deg`.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Said {
    /// The word of the request.
    pub tell: String,
    /// The precondition, for `confirm`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub what: Option<String>,
    /// An amount.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub amount: Option<String>,
    /// How warm it was, or what the thermometer shows.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<String>,
    /// Nose up is positive.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pitch: Option<String>,
    /// Left side up is positive.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub roll: Option<String>,
    /// Where the thermometer was pointed or held.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub surface: Option<String>,
    /// A remark, a reason, a position, or the name of a sheet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub text: Option<String>,
}

/// Why it is no request, in a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unsaid(pub String);

impl core::fmt::Display for Unsaid {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.0)
    }
}

impl core::error::Error for Unsaid {}

impl Said {
    /// Only a word.
    pub fn word(tell: &str) -> Self {
        Self { tell: tell.to_owned(), ..Self::default() }
    }

    /// Reads it.
    ///
    /// # Errors
    /// [`Unsaid`] says which field is missing or wrong, and how to write it.
    pub fn request(&self) -> Result<Request, Unsaid> {
        Ok(match self.tell.as_str() {
            "sheet" => Request::Sheet { name: self.given(&self.text, "the sheet's name")? },
            "start" => match self.text.as_deref() {
                None | Some("") => Request::start(),
                Some("check") => Request::Start { job: Task::Check, people: People::Two },
                Some("alone") => Request::Start { job: Task::Change, people: People::One },
                Some("check alone") => Request::Start { job: Task::Check, people: People::One },
                Some(other) => return Err(Unsaid(format!("`{}` is no kind of job.", short(other)))),
            },
            "confirm" => Request::Confirm { what: self.precondition()? },
            "level" => Request::Level {
                pitch_degrees: read(text::degrees, &self.given(&self.pitch, "the pitch")?)?,
                roll_degrees: read(text::degrees, &self.given(&self.roll, "the roll")?)?,
            },
            "drained" => Request::Drained { millilitres: self.millilitres()?, celsius: self.celsius()? },
            "filled" => Request::Filled { millilitres: self.millilitres()?, celsius: self.celsius()? },
            "ran-out" => Request::RanOut { millilitres: self.millilitres()?, celsius: self.celsius()? },
            "spot" => Request::Spot {
                celsius: read(text::celsius, &self.given(&self.at, "what the thermometer shows")?)?,
                surface: self.surface()?,
            },
            "air" => Request::Air {
                celsius: read(text::celsius, &self.given(&self.at, "how warm it is outside")?)?,
            },
            "shifted" => Request::Shifted { position: self.given(&self.text, "the position")? },
            "display" => Request::Display {
                celsius: read(text::celsius, &self.given(&self.at, "what the display shows")?)?,
            },
            "lamp" => Request::Lamp { shows: self.one_of("what the lamp shows")? },
            "engine" => Request::Engine { what: self.one_of("what the engine does")?, rpm: None },
            "flowing" => Request::Flowing,
            "nothing-flows" => Request::NothingFlows,
            "trickle" => Request::Trickle,
            "drips" => Request::Drips,
            "at-edge" => Request::AtEdge,
            "below-edge" => Request::BelowEdge {
                millimetres: read(text::millimetres, &self.given(&self.amount, "how far below the edge")?)?,
            },
            "gauge" => Request::Gauge {
                millimetres: read(text::millimetres, &self.given(&self.amount, "what the gauge shows")?)?,
            },
            "leak" => Request::Leak { how: self.one_of("how it leaks")? },
            "leak-at" => Request::LeakAt { place: self.one_of("where it leaks")? },
            "symptom" => Request::Symptom { what: self.one_of("why it is here")? },
            "fluid-looks" => Request::FluidLooks { look: self.one_of("how the fluid looks")? },
            "alarm" => Request::Alarm { what: self.one_of("what it is")? },
            "no-drive" => Request::NoDrive,
            "fluid-wrong" => Request::FluidWrong,
            "closed" => Request::Closed,
            "torqued" => Request::Torqued,
            "test-driven" => Request::TestDriven,
            "done" => Request::Done,
            "undo" => Request::Undo,
            "abort" => Request::Abort { why: self.given(&self.text, "the reason")? },
            "note" => Request::Note { text: self.given(&self.text, "the remark")? },
            other => return Err(Unsaid(format!("`{}` is nothing that can be told.", short(other)))),
        })
    }

    fn given(&self, field: &Option<String>, what: &str) -> Result<String, Unsaid> {
        let text = field.as_deref().map(str::trim).filter(|t| !t.is_empty());
        text.map(str::to_owned).ok_or_else(|| Unsaid(format!("Say {what}.")))
    }

    fn one_of<T: core::str::FromStr>(&self, what: &str) -> Result<T, Unsaid> {
        let word = self.given(&self.text, what)?;
        word.parse().map_err(|_| Unsaid(format!("`{}` is not known here.", short(&word))))
    }

    fn precondition(&self) -> Result<Precondition, Unsaid> {
        let word = self.given(&self.what, "what is confirmed")?;
        word.parse().map_err(|_| Unsaid(format!("`{}` is nothing that can be confirmed.", short(&word))))
    }

    fn surface(&self) -> Result<Surface, Unsaid> {
        let word = self.given(&self.surface, "where the thermometer was held")?;
        word.parse().map_err(|_| Unsaid(format!("`{}` is no surface.", short(&word))))
    }

    fn millilitres(&self) -> Result<units::Millilitres, Unsaid> {
        read(text::millilitres, &self.given(&self.amount, "how much")?)
    }

    fn celsius(&self) -> Result<Option<units::Celsius>, Unsaid> {
        match self.at.as_deref().map(str::trim) {
            None | Some("") => Ok(None),
            Some(at) => read(text::celsius, at).map(Some),
        }
    }
}

fn read<T>(reader: fn(&str) -> Result<T, text::TextError>, text: &str) -> Result<T, Unsaid> {
    // On a phone a comma is as near as a point.
    reader(&short(text).replace(',', ".")).map_err(|e| Unsaid(format!("{e}.")))
}

fn short(text: &str) -> String {
    text.chars().take(40).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use units::{Celsius, Degrees, Millilitres};

    #[test]
    fn what_is_typed_becomes_a_request() {
        let amount = Said { amount: Some("2,4 L".into()), at: Some("22C".into()), ..Said::word("drained") };
        let want =
            Request::Drained { millilitres: Millilitres::clamped(2_400.0), celsius: Celsius::from_f64(22.0) };
        assert_eq!(amount.request(), Ok(want));
        let level =
            Said { pitch: Some("-0.2deg".into()), roll: Some("0.1deg".into()), ..Said::word("level") };
        let want =
            Request::Level { pitch_degrees: Degrees::clamped(-0.2), roll_degrees: Degrees::clamped(0.1) };
        assert_eq!(level.request(), Ok(want));
    }

    #[test]
    fn what_is_missing_or_wrong_is_said() {
        let cases: &[(Said, &str)] = &[
            (Said::word("drained"), "Say how much."),
            (
                Said { amount: Some("2.4".into()), ..Said::word("filled") },
                "`2.4` has no unit; write it like `2.4L`.",
            ),
            (Said::word("fly"), "`fly` is nothing that can be told."),
            (
                Said { what: Some("luck".into()), ..Said::word("confirm") },
                "`luck` is nothing that can be confirmed.",
            ),
            (Said { at: Some("38C".into()), ..Said::word("spot") }, "Say where the thermometer was held."),
        ];
        for (said, want) in cases {
            assert_eq!(said.request(), Err(Unsaid((*want).to_owned())), "{said:?}");
        }
    }
}
