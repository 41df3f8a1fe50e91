//! Numbers in text as the language writes them.

use std::borrow::Cow;

use crate::Lang;

impl Lang {
    /// The points between digits as this language writes them: `2.90 L` is `2,90 L` in German.
    pub fn number(self, text: &str) -> Cow<'_, str> {
        if !self.has_decimal_comma() || !text.contains('.') {
            return Cow::Borrowed(text);
        }
        let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
        let mut before = None;
        let mut rest = text.chars().peekable();
        let mut out = String::with_capacity(text.len());
        while let Some(c) = rest.next() {
            let between = c == '.' && digit(before) && digit(rest.peek().copied());
            out.push(if between { ',' } else { c });
            before = Some(c);
        }
        Cow::Owned(out)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_point_between_digits_becomes_a_comma() {
        let cases = [
            (Lang::De, "2.90\u{202f}L.", "2,90\u{202f}L."),
            (Lang::Pl, "38.5 °C ± 0.6. Wait.", "38,5 °C ± 0,6. Wait."),
            (Lang::Hi, "2.90", "2.90"),
            (Lang::En, "2.90", "2.90"),
        ];
        for (lang, text, written) in cases {
            assert_eq!(lang.number(text), written, "{lang}");
        }
    }
}
