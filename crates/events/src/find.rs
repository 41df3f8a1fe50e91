//! The search for the identifier of the fluid temperature, as people and front ends see it.
//!
//! In: nothing. Out: the words of its stages and of what to do next, a candidate, how the search stands, what was found.
//! Not here: how it is decided (`find`), when something is asked (`service`).

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{Celsius, Kelvins, words};

use crate::{Identifier, Seq, Utc};

words! {
    /// How far the search for an identifier is.
    json FindStage {
        Search "search" "Identifiers are asked, one by one.",
        Watch "watch" "What answers is watched while it warms.",
        Found "found" "Found, and confirmed.",
        NotFound "not-found" "None of what answers is the fluid.",
        Stopped "stopped" "Stopped: it goes on when the cause is gone.",
    }
}

words! {
    /// What to do next for the search, and what would settle most. Said where no job runs: in a job the job alone says what hands do,
    /// for it knows who is below, what is open and what is in it ([`FindNext::says_in_job`]).
    json FindNext {
        KeyOn "key-on" "Turn the key on. Leave the engine off and cold.",
        Wait "wait" "Leave the key on and the engine off.",
        ChargeBattery "charge-battery" "Charge the battery. The search goes on by itself.",
        StopEngine "stop-engine" "Stop the engine. The search needs it off.",
        KeyOff "key-off" "Turn the key off for ten minutes. Then turn it on, engine off.",
        StartEngine "start-engine" "All out from under it, exhaust hose outside. Then start it, in P.",
        Warm "warm" "Let it idle and warm up.",
        Spot "spot" "On four stands only, clear of shafts: measure the sump. Enter what it shows.",
        ColdSoak "cold-soak" "Let the vehicle stand over night, then begin again.",
        Confirm "confirm" "Does it show what the thermometer shows? Then confirm it.",
        ByThermometer "by-thermometer" "Set the level by thermometer.",
        LookAtLink "look-at-link" "Look at the adapter, then run find again.",
        Nothing "nothing" "Nothing more to do here.",
    }
}

impl FindNext {
    /// What is said of it beside a job: nothing that moves a hand, a key or the one below.
    pub const fn says_in_job(self) -> Option<&'static str> {
        match self {
            Self::Confirm | Self::ByThermometer => Some(self.says()),
            Self::KeyOn
            | Self::Wait
            | Self::KeyOff
            | Self::ChargeBattery
            | Self::StopEngine
            | Self::StartEngine
            | Self::Warm
            | Self::Spot
            | Self::ColdSoak
            | Self::LookAtLink
            | Self::Nothing => None,
        }
    }
}

/// An identifier that may carry the fluid temperature, as it stands now.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Candidate {
    /// 0x22 or 0x21; 0x01 for a standard identifier that no table names.
    pub service: u8,
    /// The identifier.
    pub id: u16,
    /// The request's address, as hex digits.
    pub header: String,
    /// The first byte of the value, counted from 0 after the identifier.
    pub byte: u8,
    /// How its bytes become a temperature, by the table in `docs/find.md`.
    pub encoding: String,
    /// How probable it is, 0 to 1, among all that is left and "none of them".
    pub score: f64,
    /// What it shows now, read that way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub celsius: Option<Celsius>,
    /// What would settle most.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub settles: Option<FindNext>,
}

impl Candidate {
    /// Its place, as it is told and shown: `7E1 22 4D07`.
    pub fn place(&self) -> String {
        place(&self.header, self.service, self.id)
    }
}

/// How the search stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FindView {
    /// How far it is.
    pub stage: FindStage,
    /// What to do next.
    pub next: FindNext,
    /// How many identifiers may still be it.
    pub left: u32,
    /// How many requests were made.
    pub asked: u32,
    /// How many are still planned; more where something answers.
    pub planned: u32,
    /// How many identifiers can be read.
    pub answered: u32,
    /// How long this stage still takes, in seconds, where that can be said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left_seconds: Option<f64>,
    /// Why it was stopped.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
}

/// An identifier that was found and confirmed, with what speaks for it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FoundIdentifier {
    /// As a sheet has it.
    pub identifier: Identifier,
    /// Its encoding, by the table in `docs/find.md`.
    pub encoding: String,
    /// How probable it was, 0 to 1.
    pub score: f64,
    /// By how much it changed while it was watched.
    pub span_kelvins: Kelvins,
    /// What the thermometer showed that it agrees with.
    pub spot_celsius: Celsius,
    /// What it showed then.
    pub shown_celsius: Celsius,
    /// The running job is gated by it from now on.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub takes_over: bool,
}

impl FoundIdentifier {
    /// What stands beside the identifier in a sheet: when it was found and by what evidence.
    pub fn evidence(&self, at: Utc, seq: Seq) -> String {
        format!(
            "found {at} (event {seq}): {} by {}, score {:.3}, changed by {:.0} K, {:.1} °C where a thermometer showed {:.1} °C",
            place(&self.identifier.header, self.identifier.service, self.identifier.id),
            self.encoding,
            self.score,
            self.span_kelvins.to_f64(),
            self.shown_celsius.to_f64(),
            self.spot_celsius.to_f64(),
        )
    }
}

/// Where an identifier lives, as it is told and shown: `7E1 22 4D07`.
pub fn place(header: &str, service: u8, id: u16) -> String {
    if service == 0x22 {
        format!("{header} {service:02X} {id:04X}")
    } else {
        format!("{header} {service:02X} {id:02X}")
    }
}

/// The three parts of a place that was told: header, service, identifier.
pub fn parse_place(text: &str) -> Option<(String, u8, u16)> {
    let mut parts = text.split_whitespace();
    let (header, service, id) = (parts.next()?, parts.next()?, parts.next()?);
    let hex = |text: &str| text.bytes().all(|b| b.is_ascii_hexdigit());
    if parts.next().is_some()
        || !hex(header)
        || !matches!(header.len(), 3 | 6 | 8)
        || !hex(service)
        || !hex(id)
    {
        return None;
    }
    let service = u8::from_str_radix(service, 16).ok().filter(|s| matches!(s, 0x01 | 0x21 | 0x22))?;
    Some((header.to_ascii_uppercase(), service, u16::from_str_radix(id, 16).ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_read_as_it_is_shown_and_nothing_else_is_one() {
        for (header, service, id) in [("7E1", 0x22, 0x4D07), ("18DA18F1", 0x21, 0x0A), ("8118F1", 0x01, 0xC9)]
        {
            let text = place(header, service, id);
            assert_eq!(parse_place(&text), Some((header.to_owned(), service, id)), "{text}");
        }
        for text in [
            "",
            "7E1",
            "7E1 22",
            "7E1 2E 4D07",
            "7E1 22 4D07 00",
            "7E 22 4D07",
            "XYZ 22 4D07",
            "7E1 22 14D07",
        ] {
            assert_eq!(parse_place(text), None, "{text}");
        }
    }

    #[test]
    fn what_to_do_is_short_enough_to_be_read_at_a_glance() {
        for says in FindNext::ALL.iter().map(|n| n.says()).chain(FindStage::ALL.iter().map(|s| s.says())) {
            for sentence in says.split_inclusive(['.', '?']) {
                assert!(sentence.split_whitespace().count() <= 12, "{sentence}");
            }
        }
    }
}
