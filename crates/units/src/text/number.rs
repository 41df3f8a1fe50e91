//! Numbers as people write them, with the unit behind: `6,5 L`, `1/2 qt`, `1 ½ qt`, `95-110 F`, `40 ± 5 °C`.
//!
//! In: a text. Out: numbers, and their units in one spelling (small letters, no spaces, no signs between). Not here: what a
//! unit is worth (`text.rs`). A number that can be read in two ways (`1,500`) is refused, never guessed.

use super::TextError;

/// A number and its unit; the unit may be empty.
pub(super) type Amount = (f64, String);

/// What stands in a text with one or two numbers.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Span {
    /// One number.
    One(Amount),
    /// From, and to. A unit that is missing at the first is the second's.
    FromTo(Amount, Amount),
    /// A middle, and how far to both sides.
    Around(Amount, Amount),
}

/// Splits `2.4 L` into the number and the unit.
pub(super) fn amount(text: &str, like: &'static str) -> Result<Amount, TextError> {
    let plain = plain(text);
    let (number, rest) = number(&plain, Mixed::WithHyphen).map_err(|e| e.said(text, like))?;
    match rest.trim_start().chars().next() {
        Some(c) if c.is_ascii_digit() || c == '.' || c == ',' => Err(Bad::NoNumber.said(text, like)),
        _ => Ok((number, unit(rest))),
    }
}

/// Splits `95-110 F`, `35 to 45 C`, `35C 45C` or `40 ± 5 °C`.
pub(super) fn span(text: &str, like: &'static str) -> Result<Span, TextError> {
    let plain = plain(text);
    let bad = |e: Bad| e.said(text, like);
    let (first, rest) = number(&plain, Mixed::WithSpace).map_err(bad)?;
    let end = rest.find(|c: char| c.is_ascii_digit() || "½¼¾".contains(c)).unwrap_or(rest.len());
    let (between, second) = rest.split_at(end);
    if second.is_empty() {
        // `35,45 C` is more likely two temperatures than one with two digits behind the comma.
        let digits =
            plain.split_once(',').map_or(0, |(_, d)| d.chars().take_while(char::is_ascii_digit).count());
        return if digits > 1 { Err(bad(Bad::TwoWays)) } else { Ok(Span::One((first, unit(between)))) };
    }
    let between = between.trim();
    let (words, around) = match AROUND.iter().find_map(|sign| between.split_once(sign)) {
        Some((before, after)) if after.trim().is_empty() => (before, true),
        Some(_) => return Err(bad(Bad::NoNumber)),
        None => (between, false),
    };
    // The hyphen of `95-110` joins; the one of `-10 - -5` or `-10 to -5` belongs to the number.
    let minus =
        !around && words.ends_with('-') && words.trim_end_matches('-').trim() != words.trim_end_matches('-');
    let joined = words.trim_end_matches('-').trim();
    let negative = minus && JOINERS.iter().any(|j| joined.ends_with(j))
        || words.ends_with("--")
        || words.ends_with("- -");
    let mut own = joined;
    while let Some(shorter) = JOINERS.iter().find_map(|j| own.strip_suffix(j)) {
        own = shorter.trim_end();
    }
    let (value, rest) = number(second, Mixed::WithSpace).map_err(bad)?;
    if rest.contains(|c: char| c.is_ascii_digit() && !rest.trim().starts_with(char::is_alphabetic)) {
        return Err(bad(Bad::NoNumber));
    }
    let second = (if negative { -value } else { value }, unit(rest));
    let own = unit(own);
    let first = (first, if own.is_empty() { second.1.clone() } else { own });
    Ok(if around { Span::Around(first, second) } else { Span::FromTo(first, second) })
}

/// What stands between two numbers of a range.
const JOINERS: [&str; 9] = ["up to", "to", "and", "..", "…", "-", "/", ";", ","];
/// What stands before how far to both sides.
const AROUND: [&str; 3] = ["±", "+/-", "+-"];

/// One way of writing spaces, signs and small letters.
fn plain(text: &str) -> String {
    let one = |c: char| match c {
        '\u{2212}' | '\u{2013}' | '\u{2014}' | '\u{2011}' => '-',
        '\u{a0}' | '\u{202f}' | '\u{2009}' | '\t' => ' ',
        '\u{2044}' => '/',
        c => c,
    };
    text.trim().chars().map(one).flat_map(char::to_lowercase).collect()
}

/// A unit in one spelling: `ft-lbs`, `lbf·ft` and `N m` become `ftlbs`, `lbfft`, `nm`.
fn unit(text: &str) -> String {
    let kept = |c: &char| !c.is_whitespace() && !"·⋅∙*-.°º˚".contains(*c);
    let one = |c| match c {
        '²' => "2".to_owned(),
        '³' => "3".to_owned(),
        'µ' => "u".to_owned(),
        '℃' => "c".to_owned(),
        '℉' => "f".to_owned(),
        c => c.to_string(),
    };
    text.chars().filter(kept).map(one).collect()
}

/// Whether `1-1/2` is one and a half; in a range the hyphen joins two numbers.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Mixed {
    WithHyphen,
    WithSpace,
}

/// Why a text does not begin with a number.
#[derive(Clone, Copy)]
enum Bad {
    NoNumber,
    TwoWays,
}

impl Bad {
    fn said(self, text: &str, like: &'static str) -> TextError {
        match self {
            Self::NoNumber => TextError::NoNumber { text: text.to_owned(), like },
            Self::TwoWays => TextError::TwoWays { text: text.to_owned(), like },
        }
    }
}

/// The number at the beginning, and what follows.
fn number(text: &str, mixed: Mixed) -> Result<(f64, &str), Bad> {
    let (sign, text) = match text.strip_prefix('-') {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    };
    if let Some((part, rest)) = fraction(text) {
        return Ok((sign * part, rest));
    }
    let (whole, rest) = decimal(text)?;
    let after = match mixed {
        Mixed::WithHyphen => rest.strip_prefix('-').unwrap_or(rest),
        Mixed::WithSpace => rest,
    };
    match fraction(after.trim_start()) {
        // `1 1/2`, `1½`; nobody writes `1.5 1/2`.
        Some((part, rest)) if whole.fract() == 0.0 && part < 1.0 => Ok((sign * (whole + part), rest)),
        _ => Ok((sign * whole, rest)),
    }
}

/// `1/2` or `½` at the beginning.
fn fraction(text: &str) -> Option<(f64, &str)> {
    let signs = [('½', 0.5), ('¼', 0.25), ('¾', 0.75), ('⅓', 1.0 / 3.0), ('⅔', 2.0 / 3.0), ('⅛', 0.125)];
    if let Some(found) =
        signs.iter().find_map(|(sign, part)| text.strip_prefix(*sign).map(|rest| (*part, rest)))
    {
        return Some(found);
    }
    let (over, rest) = digits(text);
    let (under, rest) = digits(rest.strip_prefix('/')?);
    let (over, under): (f64, f64) = (over.parse().ok()?, under.parse().ok()?);
    (under > 0.0).then(|| (over / under, rest))
}

/// `6`, `6.5`, `6,5` or `.5` at the beginning.
fn decimal(text: &str) -> Result<(f64, &str), Bad> {
    let (whole, rest) = digits(text);
    let (value, rest) = match rest.chars().next() {
        // `35..45` and `35, 45` are two numbers.
        Some(sign @ ('.' | ',')) if rest.chars().nth(1).is_some_and(|c| c.is_ascii_digit()) => {
            let (part, after) = digits(rest.get(1..).unwrap_or_default());
            let thousands = sign == ',' && part.len() == 3 && (1..=3).contains(&whole.len()) && whole != "0";
            if thousands {
                return Err(Bad::TwoWays);
            }
            (format!("{whole}.{part}"), after)
        }
        _ => (whole.to_owned(), rest),
    };
    Ok((value.parse().map_err(|_| Bad::NoNumber)?, rest))
}

fn digits(text: &str) -> (&str, &str) {
    text.split_at(text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_numbers_are_told_apart_however_they_are_joined() {
        let (c, none) = ("c", "");
        let two =
            |a: f64, ua: &str, b: f64, ub: &str| Some(Span::FromTo((a, ua.to_owned()), (b, ub.to_owned())));
        let cases: &[(&str, Option<Span>)] = &[
            ("35-45 °C", two(35.0, c, 45.0, c)),
            ("35 - 45C", two(35.0, c, 45.0, c)),
            ("35 – 45 ℃", two(35.0, c, 45.0, c)),
            ("35C 45C", two(35.0, c, 45.0, c)),
            ("35 45 C", two(35.0, c, 45.0, c)),
            ("35..45 C", two(35.0, c, 45.0, c)),
            ("35, 45 C", two(35.0, c, 45.0, c)),
            ("35,5 to 45,5 C", two(35.5, c, 45.5, c)),
            ("35 up to 45 C", two(35.0, c, 45.0, c)),
            ("95F-110F", two(95.0, "f", 110.0, "f")),
            ("-10 to -5 C", two(-10.0, c, -5.0, c)),
            ("-10 - -5 C", two(-10.0, c, -5.0, c)),
            ("-10 -5 C", two(-10.0, c, 5.0, c)),
            ("550-900", two(550.0, none, 900.0, none)),
            ("40 °C", Some(Span::One((40.0, c.to_owned())))),
            ("40 ± 5 °C", Some(Span::Around((40.0, c.to_owned()), (5.0, c.to_owned())))),
            ("104F +/- 9F", Some(Span::Around((104.0, "f".to_owned()), (9.0, "f".to_owned())))),
            ("35,45 C", None),
            ("1,500", None),
            ("35 to", Some(Span::One((35.0, "to".to_owned())))),
            ("35 45 55 C", None),
            ("", None),
            ("warm", None),
        ];
        for (text, want) in cases {
            assert_eq!(span(text, "").ok(), *want, "{text}");
        }
    }
}
