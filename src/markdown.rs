//! Words of others in Markdown: they are shown as they were said, and are nothing else.
//!
//! In: text that a person typed, a sheet holds or an adapter said. Out: the same text for one line of Markdown
//! (CommonMark and the tables, strikethrough and bare links of its common extensions), in which nothing is a heading, a
//! link, markup, HTML or another line. Not here: the documents (`report/md.rs`, `plan.rs`).

use events::text::shown;

/// What means something wherever it stands.
const MARKUP: &str = "\\`*_[]<>&|~$^";

/// The text as it may stand anywhere in a line.
pub fn md(text: &str) -> String {
    escaped(text, true)
}

/// The text as it may stand behind other words of its line: there a date or a number begins no list.
pub fn inline(text: &str) -> String {
    escaped(text, false)
}

fn escaped(text: &str, may_begin: bool) -> String {
    let text = shown(text.trim());
    let mut out = String::with_capacity(text.len() + 8);
    let mut rest = text.as_ref();
    while let Some(c) = rest.chars().next() {
        let starts = |what: &str| rest.get(..what.len()).is_some_and(|s| s.eq_ignore_ascii_case(what));
        let at_begin = may_begin && out.is_empty();
        // A heading may be closed by its sign.
        let closes = rest.chars().all(|c| c == '#');
        if MARKUP.contains(c) || closes || (at_begin && begins_a_block(rest)) {
            out.push('\\');
        }
        if starts("://") {
            // Some readers make a link of any address.
            out.push('\\');
        }
        out.push(c);
        rest = rest.get(c.len_utf8()..).unwrap_or_default();
        let begun_number = at_begin && c.is_ascii_digit();
        if begun_number {
            let digits = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
            out += rest.get(..digits).unwrap_or_default();
            rest = rest.get(digits..).unwrap_or_default();
            // `1. ` and `1) ` would begin a list; `1.5` does not.
            let after = rest.chars().nth(1);
            if rest.starts_with(['.', ')']) && after.is_none_or(|c| c.is_whitespace()) {
                out.push('\\');
            }
        } else if out.to_ascii_lowercase().ends_with("www") && rest.starts_with('.') {
            out.push('\\');
        }
    }
    out
}

/// Whether the first character makes a block of its line; a sign before a number does not.
fn begins_a_block(text: &str) -> bool {
    let mut chars = text.chars();
    match chars.next() {
        Some('#' | '=') => true,
        Some('-' | '+') => !chars.next().is_some_and(|c| c.is_ascii_digit()),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};

    #[test]
    fn what_is_no_markup_is_left_alone() {
        for text in [
            "QL 12, the grey one",
            "drained 2.4 L at 22 °C",
            "+151 mL ± 80 mL (k = 2), +2.5 mm at the standpipe; positive is too much",
            "-12 mL",
            "2026-03-02, 08:14:07 to 09:00:00 UTC",
            "38.5 °C",
            "Was läuft? 50 % – gut!",
        ] {
            assert_eq!(md(text), text);
        }
    }

    #[test]
    fn what_would_be_something_else_is_spelled_out() {
        let cases = [
            ("**The level is set.**", r"\*\*The level is set.\*\*"),
            ("a\n\n**b**", r"a\\u{a}\\u{a}\*\*b\*\*"),
            ("[here](http://a.example)", r"\[here\](http\://a.example)"),
            ("see WWW.a.example", r"see WWW\.a.example"),
            ("<b>&amp;", r"\<b\>\&amp;"),
            ("a|b", r"a\|b"),
            ("# big", r"\# big"),
            ("- a", r"\- a"),
            ("--- ", r"\---"),
            ("12. a", r"12\. a"),
            ("12) a", r"12\) a"),
            ("    code", "code"),
            ("a\u{1b}[2J", r"a\\u{1b}\[2J"),
        ];
        for (text, want) in cases {
            assert_eq!(md(text), want, "{text:?}");
        }
    }

    /// The text of a document, where it is a paragraph, a list of one or a cell and nothing else.
    fn plain(document: &str) -> Result<String, String> {
        let mut out = String::new();
        let (mut lists, mut cells) = (0, 0);
        let options = Options::ENABLE_TABLES
            | Options::ENABLE_FOOTNOTES
            | Options::ENABLE_STRIKETHROUGH
            | Options::ENABLE_TASKLISTS
            | Options::ENABLE_MATH
            | Options::ENABLE_GFM
            | Options::ENABLE_SUPERSCRIPT
            | Options::ENABLE_SUBSCRIPT;
        for event in Parser::new_ext(document, options) {
            match event {
                Event::Text(text) => out += &text,
                Event::Start(Tag::List(None)) => lists += 1,
                Event::Start(Tag::TableCell) => cells += 1,
                Event::Start(
                    Tag::Paragraph
                    | Tag::Heading { .. }
                    | Tag::Item
                    | Tag::Table(_)
                    | Tag::TableHead
                    | Tag::TableRow,
                )
                | Event::End(
                    TagEnd::Paragraph
                    | TagEnd::Heading(_)
                    | TagEnd::Item
                    | TagEnd::List(false)
                    | TagEnd::Table
                    | TagEnd::TableHead
                    | TagEnd::TableRow
                    | TagEnd::TableCell,
                ) => {}
                other => return Err(format!("{other:?} in {document:?}")),
            }
        }
        if lists > 1 || !matches!(cells, 0 | 4) {
            return Err(format!("{lists} lists, {cells} cells in {document:?}"));
        }
        Ok(out)
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2_000))]
        #[test]
        fn nothing_anybody_writes_is_more_than_text(text in any::<String>(), more in "[\\x00-\\x7f\u{2028}\u{202e}]{0,40}") {
            let text = text + &more;
            let escaped = md(&text);
            prop_assert!(events::text::check(&escaped).is_ok());
            let want = shown(text.trim()).into_owned();
            for (what, document) in [
                ("a line", format!("x {escaped}\n")),
                ("a heading", format!("# x: {escaped}\n")),
                ("an item", format!("- {escaped}\n")),
                ("an item behind words", format!("- x: {}\n", inline(&text))),
                ("a cell", format!("| a | b |\n| --- | --- |\n| x | {escaped} |\n")),
            ] {
                match plain(&document) {
                    Ok(found) => prop_assert!(found.ends_with(&want), "{what}: {found:?} from {document:?}"),
                    Err(why) => prop_assert!(false, "{what}: {why}"),
                }
            }
        }
    }
}
