//! The huge word: letters four to five cells wide and five high, drawn for the four words of the surface.

/// Rows of a letter.
/// By definition of the letters below.
pub const ROWS: u16 = 5;

/// A letter as five rows; `#` is ink.
#[rustfmt::skip]
const fn letter(c: char) -> [&'static str; 5] {
    match c {
        'a' => [" ## ", "#  #", "####", "#  #", "#  #"],
        'd' => ["### ", "#  #", "#  #", "#  #", "### "],
        'e' => ["####", "#   ", "### ", "#   ", "####"],
        'g' => [" ###", "#   ", "# ##", "#  #", " ###"],
        'h' => ["#  #", "#  #", "####", "#  #", "#  #"],
        'i' => ["#", "#", "#", "#", "#"],
        'n' => ["#  #", "## #", "## #", "# ##", "#  #"],
        'o' => [" ## ", "#  #", "#  #", "#  #", " ## "],
        'r' => ["### ", "#  #", "### ", "# # ", "#  #"],
        't' => ["#####", "  #  ", "  #  ", "  #  ", "  #  "],
        'w' => ["#   #", "#   #", "# # #", "## ##", "#   #"],
        _ => ["  ", "  ", "  ", "  ", "  "],
    }
}

/// The word as rows of text, each letter's cell `times` wide and high.
pub fn rows(word: &str, times: usize) -> Vec<String> {
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
    fn every_letter_of_the_four_words_is_drawn_and_fits_a_narrow_terminal() {
        for word in ["wait", "go", "too hot", "no reading"] {
            assert!(width(word, 1) <= 58, "{word}: {}", width(word, 1));
            for c in word.chars().filter(|c| *c != ' ') {
                assert!(letter(c).iter().any(|row| row.contains('#')), "{c}");
            }
        }
    }
}
