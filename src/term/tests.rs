use ratatui::backend::TestBackend;
use ratatui::style::Modifier;
use units::Mono;
use units::text::UnitSystem;
use view::{Fold, Look, Seat};

use super::*;

const MOMENTS: &[&str] = &["prepare", "cycle", "wait", "ready", "go", "stream", "too-hot", "lost", "tighten"];
const SIZES: &[(u16, u16)] = &[(80, 24), (104, 34), (160, 50)];

/// The screen as text; lines on paper (reversed) begin with `R`.
fn painted(moment: &str, (width, height): (u16, u16)) -> String {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(root.join(format!("fixtures/screens/{moment}.json"))).unwrap();
    let mut fold = Fold::default();
    fold.hear(&serde_json::from_str(&text).unwrap(), Mono::from_secs(60));
    let seat = if moment == "cycle" { Seat::Inside } else { Seat::Under };
    let units = UnitSystem::Metric;
    let view = fold.look(&Look { now: Mono::from_secs(60), seat, units });
    let mut terminal = ratatui::Terminal::new(TestBackend::new(width, height)).unwrap();
    let face = Face { view: &view, units, message: "", deeds: None, page: 0 };
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
    out
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
            let view = fold.look(&Look { now: Mono::from_secs(60), seat, units: UnitSystem::Metric });
            let pages = pages(&view);
            let mut shown = String::new();
            for page in 0..pages.len() {
                let face = Face { view: &view, units: UnitSystem::Metric, message: "", deeds: None, page };
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
