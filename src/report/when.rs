//! Times as people read them: in the zone of this machine, named beside them.
//!
//! In: instants in UTC. Out: days, clocks and spans as text. Not here: JSON, which stays UTC.

use events::Utc;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};
use words::{Lang, args};

/// A zone to read times in.
#[derive(Debug, Clone)]
pub struct Times {
    zone: TimeZone,
}

impl Times {
    /// The zone of this machine (`TZ`, else the system's); UTC where it names none.
    pub fn here() -> Self {
        Self { zone: TimeZone::try_system().unwrap_or(TimeZone::UTC) }
    }

    /// Another zone.
    #[cfg(test)]
    pub const fn of(zone: TimeZone) -> Self {
        Self { zone }
    }

    fn civil(&self, at: Utc) -> ZonedDateTime {
        let at = Timestamp::from_millisecond(at.as_millis()).unwrap_or(Timestamp::UNIX_EPOCH);
        at.to_zoned_datetime(self.zone.clone())
    }

    /// `29 March 2026`.
    pub fn day(&self, at: Utc, lang: Lang) -> String {
        let civil = self.civil(at);
        let year = civil.year().to_string();
        lang.with("date", &args!(day = civil.day(), month = civil.month(), year = year))
    }

    /// `2026-03-29`.
    pub fn date(&self, at: Utc) -> String {
        self.civil(at).date().to_string()
    }

    /// The day after it: a day on which the clocks are changed is no 24 hours long.
    pub fn date_after(&self, at: Utc) -> String {
        let date = self.civil(at).date();
        date.tomorrow().unwrap_or(date).to_string()
    }

    /// `14:07:09`.
    pub fn clock(&self, at: Utc) -> String {
        self.civil(at).strftime("%H:%M:%S").to_string()
    }

    /// The zone by then: `CET (UTC+1)`, or `UTC+5:30` where it has no name.
    pub fn zone(&self, at: Utc) -> String {
        let civil = self.civil(at);
        let offset = offset(civil.offset().seconds());
        let name = civil.strftime("%Z").to_string();
        let named = name.chars().all(|c| c.is_ascii_alphabetic()) && name != offset && !name.is_empty();
        if named { format!("{name} ({offset})") } else { offset }
    }

    /// From when to when: the zone once, or with both where it changes in between.
    pub fn span(&self, from: Utc, to: Utc, lang: Lang) -> String {
        let minute = |at| self.civil(at).strftime("%H:%M").to_string();
        let with = |at| format!("{} {}", minute(at), self.zone(at));
        let day = |at| format!("{}, ", self.day(at, lang));
        let until = if self.civil(from).date() == self.civil(to).date() { String::new() } else { day(to) };
        let from_says = if self.changes(from, to) { with(from) } else { minute(from) };
        lang.with(
            "times-from-to",
            &args!(from = format!("{}{from_says}", day(from)), to = format!("{until}{}", with(to))),
        )
    }

    /// Since when.
    pub fn since(&self, from: Utc, lang: Lang) -> String {
        let at = self.civil(from).strftime("%H:%M").to_string();
        let from = format!("{}, {at} {}", self.day(from, lang), self.zone(from));
        lang.with("times-since", &args!(from = from))
    }

    /// Whether the clocks are changed in between.
    pub fn changes(&self, from: Utc, to: Utc) -> bool {
        self.civil(from).offset() != self.civil(to).offset()
    }
}

/// `UTC`, `UTC+1`, `UTC-3:30`.
fn offset(seconds: i32) -> String {
    let (hours, minutes) = (seconds.abs() / 3_600, seconds.abs() / 60 % 60);
    match (seconds, minutes) {
        (0, _) => "UTC".to_owned(),
        (s, 0) => format!("UTC{}{hours}", if s < 0 { '-' } else { '+' }),
        (s, _) => format!("UTC{}{hours}:{minutes:02}", if s < 0 { '-' } else { '+' }),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests")]
mod tests {
    use super::*;

    /// Central Europe as POSIX writes it: no database of zones is needed.
    fn europe() -> Times {
        Times::of(TimeZone::posix("CET-1CEST,M3.5.0,M10.5.0/3").unwrap())
    }

    fn at(text: &str) -> Utc {
        text.parse().unwrap()
    }

    // Source: directive 2000/84/EC: summer time begins on the last Sunday in March at 01:00 UTC, ends on that in October.
    #[test]
    fn a_job_across_the_change_of_the_clocks_names_both_zones() {
        let (from, to) = (at("2026-03-29T00:30:00Z"), at("2026-03-29T01:45:00Z"));
        assert_eq!(
            europe().span(from, to, Lang::En),
            "29 March 2026, 01:30 CET (UTC+1) to 03:45 CEST (UTC+2)"
        );
        assert!(europe().changes(from, to));
        assert_eq!(europe().clock(at("2026-03-29T01:00:00Z")), "03:00:00");
        let (from, to) = (at("2026-10-25T00:30:00Z"), at("2026-10-25T01:15:00Z"));
        assert_eq!(
            europe().span(from, to, Lang::De),
            "25. Oktober 2026, 02:30 CEST (UTC+2) bis 02:15 CET (UTC+1)"
        );
    }

    #[test]
    fn elsewhere_the_zone_stands_once_and_a_second_day_is_named() {
        let (from, to) = (at("2026-03-02T08:14:07Z"), at("2026-03-02T09:20:00Z"));
        assert_eq!(europe().span(from, to, Lang::En), "2 March 2026, 09:14 to 10:20 CET (UTC+1)");
        let (from, to) = (at("2026-03-02T22:40:00Z"), at("2026-03-02T23:20:00Z"));
        assert_eq!(
            europe().span(from, to, Lang::En),
            "2 March 2026, 23:40 to 3 March 2026, 00:20 CET (UTC+1)"
        );
        let utc = Times::of(TimeZone::UTC);
        assert_eq!(utc.span(from, from, Lang::En), "2 March 2026, 22:40 to 22:40 UTC");
        let long_night = at("2026-10-24T22:30:00Z");
        assert_eq!(
            (europe().date(long_night), europe().date_after(long_night)),
            ("2026-10-25".to_owned(), "2026-10-26".to_owned())
        );
        assert_eq!((utc.date(to), europe().date(to)), ("2026-03-02".to_owned(), "2026-03-03".to_owned()));
        let india = Times::of(TimeZone::fixed(jiff::tz::Offset::from_seconds(19_800).unwrap()));
        assert_eq!(india.zone(from), "UTC+5:30");
        assert_eq!(offset(-12_600), "UTC-3:30");
    }
}
