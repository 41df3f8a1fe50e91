//! What a person says on a screen, as text, made into a request: the same reading of amounts as on the command line.
//!
//! In: the word of a request and its fields as they were typed. Out: a [`Request`], or what is wrong in a sentence.

use events::{Particular, People, Precondition, Request, Surface, Task};
use serde::{Deserialize, Serialize};
use units::{Millimetres, Rpm, text};

/// A request with its fields as text: `2.4L`, `22C`, `0.1deg`.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct TypedRequest {
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

impl TypedRequest {
    /// Only a word.
    pub fn word(tell: &str) -> Self {
        Self { tell: tell.to_owned(), ..Self::default() }
    }

    /// How a request is written: the one grammar of requests, for all of them. [`Self::request`] reads it back.
    pub fn of(request: &Request) -> Self {
        let word = Self::word(request.word());
        let with = |text: &str| Self { text: Some(text.to_owned()), ..word.clone() };
        let at = |celsius: &units::Celsius| Some(format!("{celsius:.3}C"));
        let amount = |millilitres: &units::Millilitres, celsius: &Option<units::Celsius>| Self {
            amount: Some(format!("{millilitres:.3}ml")),
            at: celsius.as_ref().and_then(at),
            ..word.clone()
        };
        let depth = |mm: &Millimetres| Self { amount: Some(format!("{mm:.3}mm")), ..word.clone() };
        match request {
            Request::Sheet { name: text }
            | Request::Shifted { position: text }
            | Request::Vehicle { text }
            | Request::Abort { why: text }
            | Request::Note { text } => with(text),
            Request::Start { job, people } => match (job, people) {
                (Task::Change, People::Two) => word,
                (Task::Check, People::Two) => with("check"),
                (Task::Change, People::One) => with("alone"),
                (Task::Check, People::One) => with("check alone"),
            },
            Request::Recheck { of } => with(&of.to_string()),
            Request::Confirm { what } => Self { what: Some(what.word().to_owned()), ..word },
            Request::Level { pitch_degrees, roll_degrees } => Self {
                pitch: Some(format!("{pitch_degrees:.3}deg")),
                roll: Some(format!("{roll_degrees:.3}deg")),
                ..word
            },
            Request::Corners {
                front_left_millimetres,
                front_right_millimetres,
                rear_left_millimetres,
                rear_right_millimetres,
                wheelbase_millimetres,
                track_millimetres,
            } => {
                let heights = [
                    front_left_millimetres,
                    front_right_millimetres,
                    rear_left_millimetres,
                    rear_right_millimetres,
                ];
                let base = wheelbase_millimetres.iter().chain(track_millimetres.iter().flatten());
                let all: Vec<String> =
                    heights.into_iter().chain(base).map(|mm| format!("{mm:.3}mm")).collect();
                with(&all.join(" "))
            }
            Request::Drained { millilitres, celsius }
            | Request::Filled { millilitres, celsius }
            | Request::RanOut { millilitres, celsius } => amount(millilitres, celsius),
            Request::Spilled { millilitres, of } => {
                Self { text: Some(of.word().to_owned()), ..amount(millilitres, &None) }
            }
            Request::TakenOut { part, millilitres, celsius } => Self {
                text: Some(part.word().to_owned()),
                amount: millilitres.map(|ml| format!("{ml:.3}ml")),
                at: celsius.as_ref().and_then(at),
                ..word
            },
            Request::Kept { millilitres } => amount(millilitres, &None),
            Request::Particular { what, text } => with(&format!("{what} {text}")),
            Request::Photo { sha256, name } => with(&format!("{sha256} {name}")),
            Request::Spot { celsius, surface } => {
                Self { at: at(celsius), surface: Some(surface.word().to_owned()), ..word }
            }
            Request::Air { celsius } | Request::Display { celsius } => Self { at: at(celsius), ..word },
            Request::Lamp { shows } => with(shows.word()),
            Request::Engine { what, rpm } => {
                Self { amount: rpm.map(|rpm| rpm.to_string()), ..with(what.word()) }
            }
            Request::BelowEdge { millimetres } | Request::Gauge { millimetres } => depth(millimetres),
            Request::Candidate { service, identifier, header } => {
                with(&events::place(header, *service, *identifier))
            }
            Request::Leak { how } => with(how.word()),
            Request::LeakAt { place } => with(place.word()),
            Request::Symptom { what } => with(what.word()),
            Request::FluidLooks { look } => with(look.word()),
            Request::Alarm { what } => with(what.word()),
            Request::Flowing
            | Request::NothingFlows
            | Request::Trickle
            | Request::Drips
            | Request::AtEdge
            | Request::NoDrive
            | Request::FluidWrong
            | Request::Closed
            | Request::Torqued
            | Request::TestDriven
            | Request::Done
            | Request::Undo => word,
        }
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
            "candidate" => {
                let text = self.given(&self.text, "which identifier")?;
                let (header, service, identifier) = events::parse_place(&text)
                    .ok_or_else(|| Unsaid(format!("`{text}` is no place of an identifier.")))?;
                Request::Candidate { service, identifier, header }
            }
            "shifted" => Request::Shifted { position: self.given(&self.text, "the position")? },
            "display" => Request::Display {
                celsius: read(text::celsius, &self.given(&self.at, "what the display shows")?)?,
            },
            "lamp" => Request::Lamp { shows: self.one_of("what the lamp shows")? },
            "engine" => Request::Engine { what: self.one_of("what the engine does")?, rpm: self.rpm()? },
            "recheck" => Request::Recheck { of: self.one_of("the number of that job")? },
            "vehicle" => Request::Vehicle { text: self.given(&self.text, "which vehicle it is")? },
            "spilled" => Request::Spilled {
                millilitres: self.millilitres()?,
                of: self.one_of("which amount it is missing from")?,
            },
            "taken-out" => Request::TakenOut {
                part: self.one_of("which part")?,
                millilitres: self.maybe(&self.amount, text::millilitres)?,
                celsius: self.celsius()?,
            },
            "kept" => Request::Kept { millilitres: self.millilitres()? },
            "corners" => self.corners()?,
            "particular" => self.particular()?,
            "photo" => self.photo()?,
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
            // Each particular is a button of its own, with one field.
            other => match other.parse() {
                Ok(what) => {
                    Request::Particular { what, text: self.given(&self.text, "what shall stand there")? }
                }
                Err(_) => return Err(Unsaid(format!("`{}` is nothing that can be told.", short(other)))),
            },
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
        self.maybe(&self.at, text::celsius)
    }

    /// A field that may be left out.
    fn maybe<T>(
        &self,
        field: &Option<String>,
        reader: fn(&str) -> Result<T, text::TextError>,
    ) -> Result<Option<T>, Unsaid> {
        match field.as_deref().map(str::trim) {
            None | Some("") => Ok(None),
            Some(text) => read(reader, text).map(Some),
        }
    }

    /// What the rev counter shows, where it is told.
    fn rpm(&self) -> Result<Option<Rpm>, Unsaid> {
        let Some(text) = self.amount.as_deref().map(str::trim).filter(|t| !t.is_empty()) else {
            return Ok(None);
        };
        let rpm = text.parse().ok().and_then(Rpm::from_f64);
        rpm.map(Some)
            .ok_or_else(|| Unsaid(format!("`{}` is no engine speed; write it like `720`.", short(text))))
    }

    /// Four heights, and where the sheet does not say them the wheelbase and the track, front and rear.
    fn corners(&self) -> Result<Request, Unsaid> {
        let text = self.given(&self.text, "the four heights, like 312mm 310mm 305mm 306mm")?;
        let all: Result<Vec<Millimetres>, Unsaid> =
            text.split_whitespace().map(|one| read(text::millimetres, one)).collect();
        let all = all?;
        let &[front_left, front_right, rear_left, rear_right, ref base @ ..] = all.as_slice() else {
            return Err(Unsaid("Four heights are needed, like 312mm 310mm 305mm 306mm.".to_owned()));
        };
        let (wheelbase, track) = match *base {
            [] => (None, None),
            [wheelbase] => (Some(wheelbase), None),
            [wheelbase, track] => (Some(wheelbase), Some([track, track])),
            [wheelbase, front, rear] => (Some(wheelbase), Some([front, rear])),
            _ => return Err(Unsaid("After the four heights come wheelbase and track, no more.".to_owned())),
        };
        Ok(Request::Corners {
            front_left_millimetres: front_left,
            front_right_millimetres: front_right,
            rear_left_millimetres: rear_left,
            rear_right_millimetres: rear_right,
            wheelbase_millimetres: wheelbase,
            track_millimetres: track,
        })
    }

    /// A particular for the report: which, then its words.
    fn particular(&self) -> Result<Request, Unsaid> {
        let text = self.given(&self.text, "which particular, and its words")?;
        let (what, text) = text.split_once(' ').unwrap_or((&text, ""));
        let what: Particular =
            what.parse().map_err(|_| Unsaid(format!("`{}` is no particular of a report.", short(what))))?;
        let text = Some(text.to_owned());
        Ok(Request::Particular { what, text: self.given(&text, "what shall stand there")? })
    }

    /// A photo that lies beside the journal: its hash, then its name.
    fn photo(&self) -> Result<Request, Unsaid> {
        let text = self.given(&self.text, "the photo's hash and its name")?;
        let (sha256, name) = text.split_once(' ').unwrap_or((&text, ""));
        Ok(Request::Photo { sha256: sha256.to_owned(), name: name.to_owned() })
    }
}

fn read<T>(reader: fn(&str) -> Result<T, text::TextError>, text: &str) -> Result<T, Unsaid> {
    reader(&short(text)).map_err(|e| Unsaid(format!("{e}.")))
}

fn short(text: &str) -> String {
    text.chars().take(40).collect()
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "tests")]
mod tests {
    use super::*;
    use events::{Alarm, EngineWord, FluidLook, LampState, Leak, LeakPlace, Part, Symptom, Way};
    use units::{Celsius, Degrees, Millilitres};

    #[test]
    fn what_is_typed_becomes_a_request() {
        let amount = TypedRequest {
            amount: Some("2,4 L".into()),
            at: Some("22C".into()),
            ..TypedRequest::word("drained")
        };
        let want =
            Request::Drained { millilitres: Millilitres::clamped(2_400.0), celsius: Celsius::from_f64(22.0) };
        assert_eq!(amount.request(), Ok(want));
        let level = TypedRequest {
            pitch: Some("-0.2deg".into()),
            roll: Some("0.1deg".into()),
            ..TypedRequest::word("level")
        };
        let want =
            Request::Level { pitch_degrees: Degrees::clamped(-0.2), roll_degrees: Degrees::clamped(0.1) };
        assert_eq!(level.request(), Ok(want));
    }

    /// One of each request, with all that it may carry, and where parts may be left out once more without.
    fn one_of_each() -> Vec<Request> {
        let ml = Millilitres::clamped(2_412.0);
        let celsius = Celsius::clamped(22.25);
        let mm = |v: f64| Millimetres::clamped(v);
        let corners = |wheelbase_millimetres, track_millimetres| Request::Corners {
            front_left_millimetres: mm(312.5),
            front_right_millimetres: mm(310.0),
            rear_left_millimetres: mm(305.0),
            rear_right_millimetres: mm(306.0),
            wheelbase_millimetres,
            track_millimetres,
        };
        let text = || "a plate, an order".to_owned();
        let mut all = vec![
            Request::Sheet { name: text() },
            Request::Level { pitch_degrees: Degrees::clamped(-0.25), roll_degrees: Degrees::clamped(0.1) },
            Request::Drained { millilitres: ml, celsius: Some(celsius) },
            Request::Filled { millilitres: ml, celsius: None },
            Request::RanOut { millilitres: ml, celsius: Some(celsius) },
            Request::Kept { millilitres: ml },
            corners(None, None),
            corners(Some(mm(2_700.0)), None),
            corners(Some(mm(2_700.0)), Some([mm(1_510.0), mm(1_530.0)])),
            Request::Shifted { position: "D".to_owned() },
            Request::Candidate { service: 0x22, identifier: 0x4D07, header: "7E1".to_owned() },
            Request::Vehicle { text: text() },
            Request::Particular { what: Particular::Odometer, text: "84 210 km".to_owned() },
            Request::Photo { sha256: "ab".repeat(32), name: "the old pan.jpg".to_owned() },
            Request::Recheck { of: 17 },
            Request::Air { celsius },
            Request::Display { celsius },
            Request::Engine { what: EngineWord::Idling, rpm: Rpm::from_f64(720.0) },
            Request::Engine { what: EngineWord::Stopped, rpm: None },
            Request::Flowing,
            Request::NothingFlows,
            Request::Trickle,
            Request::Drips,
            Request::AtEdge,
            Request::BelowEdge { millimetres: mm(3.0) },
            Request::Gauge { millimetres: mm(43.0) },
            Request::NoDrive,
            Request::FluidWrong,
            Request::Closed,
            Request::Torqued,
            Request::TestDriven,
            Request::Done,
            Request::Undo,
            Request::Abort { why: text() },
            Request::Note { text: text() },
        ];
        for job in [Task::Change, Task::Check] {
            all.extend([People::Two, People::One].map(|people| Request::Start { job, people }));
        }
        all.extend(Precondition::ALL.iter().map(|&what| Request::Confirm { what }));
        all.extend(Way::ALL.iter().map(|&of| Request::Spilled { millilitres: ml, of }));
        for (millilitres, celsius) in [(None, None), (Some(ml), Some(celsius))] {
            all.extend(Part::ALL.iter().map(|&part| Request::TakenOut { part, millilitres, celsius }));
        }
        all.extend(Surface::ALL.iter().map(|&surface| Request::Spot { celsius, surface }));
        all.extend(LampState::ALL.iter().map(|&shows| Request::Lamp { shows }));
        all.extend(Leak::ALL.iter().map(|&how| Request::Leak { how }));
        all.extend(LeakPlace::ALL.iter().map(|&place| Request::LeakAt { place }));
        all.extend(Symptom::ALL.iter().map(|&what| Request::Symptom { what }));
        all.extend(FluidLook::ALL.iter().map(|&look| Request::FluidLooks { look }));
        all.extend(Alarm::ALL.iter().map(|&what| Request::Alarm { what }));
        all
    }

    #[test]
    fn every_request_is_written_and_read_back() {
        let all = one_of_each();
        for request in &all {
            let said = TypedRequest::of(request);
            assert_eq!(said.request().as_ref(), Ok(request), "{said:?}");
        }
        // The schema knows them all, and so the list above is whole.
        let schema = serde_json::to_value(schemars::schema_for!(Request)).unwrap();
        let mut words: Vec<&str> = schema["oneOf"]
            .as_array()
            .unwrap()
            .iter()
            .filter_map(|one| one["properties"]["tell"]["const"].as_str())
            .collect();
        words.retain(|word| all.iter().all(|request| request.word() != *word));
        assert_eq!((words, schema["oneOf"].as_array().unwrap().len() > 30), (vec![], true));
    }

    #[test]
    fn what_is_missing_or_wrong_is_said() {
        let cases: &[(TypedRequest, &str)] = &[
            (TypedRequest::word("drained"), "Say how much."),
            (
                TypedRequest { amount: Some("2.4".into()), ..TypedRequest::word("filled") },
                "`2.4` has no unit; write it like `2.4L`.",
            ),
            (TypedRequest::word("fly"), "`fly` is nothing that can be told."),
            (
                TypedRequest { what: Some("luck".into()), ..TypedRequest::word("confirm") },
                "`luck` is nothing that can be confirmed.",
            ),
            (
                TypedRequest { at: Some("38C".into()), ..TypedRequest::word("spot") },
                "Say where the thermometer was held.",
            ),
        ];
        for (said, want) in cases {
            assert_eq!(said.request(), Err(Unsaid((*want).to_owned())), "{said:?}");
        }
    }
}
