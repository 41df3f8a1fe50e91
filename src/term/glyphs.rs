//! The huge word: letters four to five cells wide and five high. A letter with a mark is drawn as its base, since the mark
//! would cost a row; a word in a script that is not drawn here stands as text between bars.

/// Rows of a letter.
/// By definition of the letters below.
pub const ROWS: u16 = 5;

/// A letter as five rows; `#` is ink.
#[rustfmt::skip]
const fn letter(c: char) -> [&'static str; 5] {
    match c {
        'a' => [" ## ", "#  #", "####", "#  #", "#  #"],
        'b' => ["### ", "#  #", "### ", "#  #", "### "],
        'c' => [" ###", "#   ", "#   ", "#   ", " ###"],
        'd' => ["### ", "#  #", "#  #", "#  #", "### "],
        'e' => ["####", "#   ", "### ", "#   ", "####"],
        'f' => ["####", "#   ", "### ", "#   ", "#   "],
        'g' => [" ###", "#   ", "# ##", "#  #", " ###"],
        'h' => ["#  #", "#  #", "####", "#  #", "#  #"],
        'i' => ["#", "#", "#", "#", "#"],
        'j' => ["  ##", "   #", "   #", "#  #", " ## "],
        'k' => ["#  #", "# # ", "##  ", "# # ", "#  #"],
        'l' => ["#   ", "#   ", "#   ", "#   ", "####"],
        'm' => ["#   #", "## ##", "# # #", "#   #", "#   #"],
        'n' => ["#  #", "## #", "## #", "# ##", "#  #"],
        'o' => [" ## ", "#  #", "#  #", "#  #", " ## "],
        'p' => ["### ", "#  #", "### ", "#   ", "#   "],
        'q' => [" ## ", "#  #", "#  #", "# ##", " ###"],
        'r' => ["### ", "#  #", "### ", "# # ", "#  #"],
        's' => [" ###", "#   ", " ## ", "   #", "### "],
        't' => ["#####", "  #  ", "  #  ", "  #  ", "  #  "],
        'u' => ["#  #", "#  #", "#  #", "#  #", " ## "],
        'v' => ["#   #", "#   #", " # # ", " # # ", "  #  "],
        'w' => ["#   #", "#   #", "# # #", "## ##", "#   #"],
        'x' => ["#   #", " # # ", "  #  ", " # # ", "#   #"],
        'y' => ["#   #", " # # ", "  #  ", "  #  ", "  #  "],
        'z' => ["####", "  ##", " ## ", "##  ", "####"],
        _ => ["  ", "  ", "  ", "  ", "  "],
    }
}

/// The letters that are drawn for it.
fn bases(c: char) -> &'static str {
    match c {
        'ä' | 'á' | 'à' | 'â' | 'ã' | 'ą' => "a",
        'ç' | 'ć' => "c",
        'é' | 'è' | 'ê' | 'ę' => "e",
        'í' => "i",
        'ł' => "l",
        'ñ' | 'ń' => "n",
        'ö' | 'ó' | 'ô' | 'õ' => "o",
        'ś' => "s",
        'ü' | 'ú' | 'ù' => "u",
        'ż' | 'ź' => "z",
        'ß' => "ss",
        _ => "",
    }
}

/// Whether all of it can be drawn.
fn is_drawn(word: &str) -> bool {
    word.chars().all(|c| c == ' ' || c.is_ascii_lowercase() || !bases(c).is_empty())
}

/// The word as rows of text, each letter's cell `times` wide and high.
pub fn rows(word: &str, times: usize) -> Vec<String> {
    let word = word.to_lowercase();
    if !is_drawn(&word) {
        let bar = "█".repeat(word.chars().count() + 4);
        return vec![bar.clone(), String::new(), format!("  {word}"), String::new(), bar];
    }
    let drawn: String =
        word.chars().map(|c| if bases(c).is_empty() { c.to_string() } else { bases(c).to_owned() }).collect();
    let word = drawn.as_str();
    let mut rows = Vec::new();
    for row in 0..usize::from(ROWS) {
        let mut text = String::new();
        for c in word.chars() {
            for ink in letter(c).get(row).copied().unwrap_or_default().chars() {
                let cell = if ink == '#' { "█" } else { " " };
                text += &cell.repeat(times);
            }
            text += &" ".repeat(times);
        }
        rows.extend(std::iter::repeat_n(text.trim_end().to_owned(), times));
    }
    rows
}

/// How wide the word would be.
pub fn width(word: &str, times: usize) -> usize {
    rows(word, times).iter().map(|r| r.chars().count()).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_four_words_are_drawn_in_every_language_and_fit_a_narrow_terminal() {
        for &lang in words::Lang::ALL {
            for word in ["word-wait", "word-go", "word-too-hot", "word-no-reading"] {
                let word = lang.text(word);
                assert!(width(word, 1) <= 58, "{word}: {}", width(word, 1));
                assert!(rows(word, 1).iter().any(|row| row.contains('█')), "{word}");
                assert!(is_drawn(&word.to_lowercase()) || lang == words::Lang::Hi, "{lang}: {word}");
            }
        }
        for c in 'a'..='z' {
            assert!(letter(c).iter().any(|row| row.contains('#')), "{c}");
        }
    }
}
