//! Wall-clock time: for people and records, never for a decision.

use core::fmt;
use core::str::FromStr;

/// A point of civil time: milliseconds since 1970-01-01T00:00:00Z. RFC 3339 in UTC wherever it is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Utc(i64);

impl Utc {
    /// From milliseconds since 1970; a clock outside the years 1970 to 9999 is moved to the nearer end.
    pub fn from_millis(millis: i64) -> Self {
        Self(millis.clamp(0, 253_402_300_799_999))
    }

    /// So many seconds after 1970 began.
    pub const fn from_seconds(seconds: u32) -> Self {
        Self(seconds as i64 * 1_000)
    }

    /// Milliseconds since 1970.
    pub const fn as_millis(self) -> i64 {
        self.0
    }

    /// So many whole days later.
    pub fn plus_days(self, days: u32) -> Self {
        Self::from_millis(self.0.saturating_add(i64::from(days) * 86_400_000))
    }
}

impl fmt::Display for Utc {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match jiff::Timestamp::from_millisecond(self.0) {
            Ok(at) => write!(f, "{at:.3}"),
            Err(_) => f.write_str("1970-01-01T00:00:00.000Z"),
        }
    }
}

impl FromStr for Utc {
    type Err = String;
    fn from_str(text: &str) -> Result<Self, String> {
        let at: jiff::Timestamp =
            text.parse().map_err(|_| format!("`{text}` is no RFC 3339 time like 2026-03-02T09:14:07Z"))?;
        Ok(Self::from_millis(at.as_millisecond()))
    }
}

impl serde::Serialize for Utc {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> serde::Deserialize<'de> for Utc {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

impl schemars::JsonSchema for Utc {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Utc".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({"type": "string", "format": "date-time", "description": "RFC 3339, UTC"})
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn civil_time_is_rfc_3339_with_milliseconds() {
        let at = Utc::from_millis(1_772_442_847_120);
        assert_eq!(at.to_string(), "2026-03-02T09:14:07.120Z");
        assert_eq!("2026-03-02T09:14:07.120Z".parse(), Ok(at));
        assert_eq!("2026-03-02T10:14:07.12+01:00".parse(), Ok(at));
        assert!("yesterday".parse::<Utc>().is_err());
    }
}
