//! Rechecks as a calendar: iCalendar, RFC 5545.
//!
//! In: what is due. Out: the text of a calendar, one all-day event each, lines folded at 75 bytes and ended by CR LF.
//! Nothing in it depends on when it is written: the same rechecks give the same text, so a calendar program that reads
//! it again changes nothing.

use events::Utc;
use events::text::shown;
use service::Due;

use crate::report::Times;

/// The whole calendar.
pub fn calendar(bay: &str, due: &[Due], times: &Times) -> String {
    let mut out = String::new();
    for line in ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//standpipe//rechecks//EN", "CALSCALE:GREGORIAN"]
    {
        put(&mut out, line);
    }
    for one in due {
        let vehicle = one.vehicle.as_ref().map_or(String::new(), |v| format!("{v}, "));
        let what = format!("Recheck the fluid level: {vehicle}{}", one.sheet);
        let how = format!(
            "Job {} of {}. From cold, no fluid changed: standpipe tell recheck {}",
            one.job,
            times.date(one.ended),
            one.job
        );
        put(&mut out, "BEGIN:VEVENT");
        put(
            &mut out,
            &format!("UID:{}-job-{}-{}@standpipe.invalid", plain(bay), one.job, digits(&one.due.to_string())),
        );
        put(&mut out, &format!("DTSTAMP:{}", instant(one.ended)));
        put(&mut out, &format!("DTSTART;VALUE=DATE:{}", digits(&times.date(one.due))));
        put(&mut out, &format!("DTEND;VALUE=DATE:{}", digits(&times.date_after(one.due))));
        put(&mut out, &format!("SUMMARY:{}", text(&what)));
        put(&mut out, &format!("DESCRIPTION:{}", text(&how)));
        put(&mut out, "TRANSP:TRANSPARENT");
        put(&mut out, "END:VEVENT");
    }
    put(&mut out, "END:VCALENDAR");
    out
}

/// `20260305`, of a text that begins with a day. What names an event over and over is its day in UTC: another zone makes no other
/// event of it.
fn digits(day: &str) -> String {
    day.chars().take(10).filter(char::is_ascii_digit).collect()
}

/// `20260302T091407Z`.
fn instant(at: Utc) -> String {
    let text: String = at.to_string().chars().take(19).filter(|c| c.is_ascii_digit() || *c == 'T').collect();
    text + "Z"
}

/// Letters, digits and hyphens only.
fn plain(name: &str) -> String {
    name.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect()
}

/// A TEXT value: RFC 5545, 3.3.11.
fn text(value: &str) -> String {
    let mut out = String::new();
    for c in shown(value).chars() {
        match c {
            '\\' | ';' | ',' => out.extend(['\\', c]),
            c => out.push(c),
        }
    }
    out
}

/// One content line, folded at 75 bytes without cutting a character: RFC 5545, 3.1.
fn put(out: &mut String, line: &str) {
    let mut bytes = 0;
    for c in line.chars() {
        if bytes + c.len_utf8() > 75 {
            out.push_str("\r\n ");
            bytes = 1;
        }
        out.push(c);
        bytes += c.len_utf8();
    }
    out.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_calendar_has_the_lines_of_the_standard() {
        let due = Due {
            job: 12,
            due: Utc::from_millis(1_772_702_047_000),
            ended: Utc::from_millis(1_772_442_847_000),
            sheet: "Demo six-speed, transverse".to_owned(),
            vehicle: Some(
                "QL 7; the grey one with a very long name that a line of a calendar cannot hold ä".to_owned(),
            ),
        };
        let utc = Times::of(jiff::tz::TimeZone::UTC);
        let text = calendar("left bay", std::slice::from_ref(&due), &utc);
        assert!(
            text.starts_with("BEGIN:VCALENDAR\r\nVERSION:2.0\r\n") && text.ends_with("END:VCALENDAR\r\n")
        );
        assert!(text.contains("UID:left-bay-job-12-20260305@standpipe.invalid\r\n"));
        assert!(text.contains(
            "DTSTAMP:20260302T091407Z\r\nDTSTART;VALUE=DATE:20260305\r\nDTEND;VALUE=DATE:20260306\r\n"
        ));
        assert!(text.contains("QL 7\\; the grey one"), "{text}");
        assert!(text.split("\r\n").all(|line| line.len() <= 75), "{text}");
        assert!(!text.replace("\r\n", "").contains(['\r', '\n']), "every line ends with both");
        let unfolded = text.replace("\r\n ", "");
        assert!(unfolded.contains("cannot hold ä\\, Demo six-speed\\, transverse"), "{unfolded}");
        assert_eq!(
            text,
            calendar("left bay", std::slice::from_ref(&due), &utc),
            "the same rechecks, the same text"
        );
        let east = Times::of(jiff::tz::TimeZone::fixed(jiff::tz::offset(16)));
        let text = calendar("left bay", &[due], &east);
        assert!(text.contains("DTSTART;VALUE=DATE:20260306"), "the day is that of the report: {text}");
    }
}
