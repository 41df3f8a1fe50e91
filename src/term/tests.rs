use ratatui::backend::TestBackend;
use ratatui::style::Modifier;
use units::Mono;
use view::{Fold, Look, Seat};
use words::Speech;

use super::*;

const MOMENTS: &[&str] = &["prepare", "cycle", "wait", "ready", "go", "stream", "too-hot", "lost", "tighten"];
const SIZES: &[(u16, u16)] = &[(80, 24), (104, 34), (160, 50)];

/// The screen as text; lines on paper (reversed) begin with `R`.
fn painted(moment: &str, size: (u16, u16)) -> String {
    seen(moment, size, Speech::default()).0
}

fn seen(moment: &str, (width, height): (u16, u16), speech: Speech) -> (String, view::View) {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(root.join(format!("fixtures/screens/{moment}.json"))).unwrap();
    let mut fold = Fold::default();
    fold.hear(&serde_json::from_str(&text).unwrap(), Mono::from_secs(60));
    let seat = if moment == "cycle" { Seat::Inside } else { Seat::Under };
    let view = fold.look(&Look { now: Mono::from_secs(60), seat, speech });
    let mut terminal = ratatui::Terminal::new(TestBackend::new(width, height)).unwrap();
    let face = Face { view: &view, speech, message: "", deeds: None, page: 0 };
    terminal.draw(|frame| face.paint(frame.area(), frame.buffer_mut())).unwrap();
    let buffer = terminal.backend().buffer();
    let mut out = String::new();
    for y in 0..height {
        let cells = (0..width).map(|x| &buffer[(x, y)]);
        let reversed = cells.clone().all(|c| c.modifier.contains(Modifier::REVERSED));
        let line: String = cells.map(ratatui::buffer::Cell::symbol).collect();
        out += if reversed { "R" } else { " " };
        out += line.trim_end();
        out.push('\n');
    }
    (out, view)
}

/// Word, sentence and clock are there to the last letter at 80x24, in every language and at every moment.
#[test]
fn every_language_fits_the_smallest_whole_screen() {
    for &lang in words::Lang::ALL {
        for moment in MOMENTS {
            let (text, view) = seen(moment, (80, 24), Speech { lang, ..Speech::default() });
            // Frames and the huge word are no text; a cell that a letter and its marks share is told as two.
            let flat = |text: &str| text.replace(['█', '╱'], "").split_whitespace().collect::<String>();
            let beside_the_pipe: Vec<String> =
                text.lines().map(|line| line.chars().skip(usize::from(pipe::WIDTH)).collect()).collect();
            let shown = flat(&beside_the_pipe.join(" "));
            assert!(shown.contains(&flat(&view.now)), "{lang}, {moment}: {}\n{text}", view.now);
            if let Some(clock) = &view.clock {
                assert!(shown.contains(&flat(clock.what)), "{lang}, {moment}: {}\n{text}", clock.what);
            }
            let first = keyed(&view, 0);
            for offer in first {
                assert!(
                    flat(&text).contains(&flat(&offer.label)),
                    "{lang}, {moment}: {}\n{text}",
                    offer.label
                );
            }
        }
    }
}

#[test]
fn golden_screens_at_three_sizes() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/golden/screens");
    for moment in MOMENTS {
        for &size in SIZES {
            let path = folder.join(format!("{moment}-{}x{}.txt", size.0, size.1));
            let got = painted(moment, size);
            if std::env::var_os("BLESS").is_some() {
                std::fs::create_dir_all(&folder).unwrap();
                std::fs::write(&path, &got).unwrap();
            }
            let want = std::fs::read_to_string(&path).unwrap_or_default();
            assert!(got == want, "{}\n{got}", path.display());
        }
    }
}

#[test]
fn a_screen_of_any_size_is_painted_without_harm() {
    for moment in MOMENTS {
        for width in [1, 3, 7, 20, 59, 61, 79, 300] {
            for height in [1, 3, 4, 9, 17, 19, 23, 90] {
                painted(moment, (width, height));
            }
        }
    }
}

#[test]
fn on_a_small_screen_the_word_and_the_sentence_stay() {
    let text = painted("go", (40, 12));
    assert!(text.contains("go") && text.contains("Open the check port now"), "{text}");
}

#[test]
fn whatever_can_be_told_is_seen_beside_its_key_and_danger_is_a_page_away() {
    for moment in MOMENTS {
        let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(root.join(format!("fixtures/screens/{moment}.json"))).unwrap();
        let mut fold = Fold::default();
        fold.hear(&serde_json::from_str(&text).unwrap(), Mono::from_secs(60));
        for seat in [Seat::Under, Seat::Inside] {
            let view = fold.look(&Look { now: Mono::from_secs(60), seat, speech: Speech::default() });
            let pages = pages(&view);
            let mut shown = String::new();
            for page in 0..pages.len() {
                let face = Face { view: &view, speech: Speech::default(), message: "", deeds: None, page };
                let mut terminal = ratatui::Terminal::new(TestBackend::new(104, 34)).unwrap();
                terminal.draw(|frame| face.paint(frame.area(), frame.buffer_mut())).unwrap();
                shown += &terminal.backend().to_string();
            }
            for offer in &view.offers {
                assert!(shown.contains(&offer.label), "{moment}, {seat:?}: {} is on no page", offer.label);
            }
            let first_aside = pages.iter().flatten().find(|offer| offer.aside);
            assert_eq!(first_aside.map(|offer| offer.tell), Some("alarm"), "{moment}, {seat:?}");
        }
    }
}
