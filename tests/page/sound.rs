//! What is heard: each pattern is rendered by the browser's own audio and measured against the table. Nobody listens to
//! a test.

use view::{Cue, Note, Pattern};

use crate::browser::{Browser, with_driver};
use crate::looks::browser_at;

/// The page with an audio that is rendered instead of played, and a vibration that is written down.
const INSTEAD: &str = "
    const rate = 44100, off = new OfflineAudioContext(1, 5 * rate, rate), make = off.createOscillator.bind(off);
    window.off = off; window.tones = 0; window.shaken = [];
    off.resume = () => Promise.resolve();
    off.createOscillator = () => { tones++; return make() };
    window.AudioContext = function () { return off };
    Object.defineProperty(navigator, 'vibrate', { value: beats => { shaken.push(beats); return true } });
    window.play = Sound.set;
    Sound.set = () => {};   // the page's own cue would come between";

/// Loudest and zero crossings of each stretch `[from, to]` in seconds.
const MEASURE: &str = "
    return off.startRendering().then(sound => {
        const x = sound.getChannelData(0);
        return STRETCHES.map(([from, to]) => {
            let loudest = 0, crossings = 0, last = 0;
            for (let i = Math.round(from * 44100); i < Math.round(to * 44100); i++) {
                loudest = Math.max(loudest, Math.abs(x[i]));
                const sign = Math.sign(x[i]) || last;
                if (last * sign < 0) crossings++;
                last = sign;
            }
            return [loudest, crossings];
        });
    })";

/// The page plays this much later than it is asked.
const AHEAD_S: f64 = 0.02;
/// Slopes and rounding at both ends of a stretch.
const EDGE_S: f64 = 0.008;

/// What is played when the cue begins: each note with where it is on and where it is off, in seconds.
fn stretches(pattern: &Pattern) -> Vec<(Note, [f64; 2], [f64; 2])> {
    let mut at = AHEAD_S;
    let mut all = Vec::new();
    for _ in 0..pattern.times {
        for &note in pattern.notes {
            let on = [at, at + f64::from(note.on_ms) / 1_000.0];
            let off = [on[1], on[1] + f64::from(note.off_ms) / 1_000.0];
            all.push((note, on, off));
            at = off[1];
        }
    }
    all
}

fn inner([from, to]: [f64; 2]) -> [f64; 2] {
    [from + EDGE_S, (to - EDGE_S).max(from + EDGE_S)]
}

async fn heard(browser: &Browser, url: &str, pattern: &Pattern, volume: u32) -> Vec<(f64, f64)> {
    browser.open(url).await;
    browser.until("document.body.dataset.contact === 'yes'").await;
    browser.run(INSTEAD).await;
    browser.run(&format!("Sound.volume({volume}); Sound.shake(true); return Sound.turn(true)")).await;
    let cue = serde_json::to_string(&pattern.cue).unwrap();
    browser.until(&format!("(play(null), play({cue}), tones > 0)")).await;
    let wanted: Vec<[f64; 2]> =
        stretches(pattern).iter().flat_map(|(_, on, off)| [inner(*on), inner(*off)]).collect();
    let script = MEASURE.replace("STRETCHES", &serde_json::to_string(&wanted).unwrap());
    serde_json::from_value(browser.run(&script).await).unwrap()
}

#[test]
fn each_pattern_sounds_as_the_table_says_and_a_mute_is_silent() {
    with_driver(|driver| async move {
        let (browser, _said, _folder) = browser_at(&driver, "wait", "/").await;
        let url = browser.run("return location.href").await.as_str().unwrap().to_owned();
        for pattern in Pattern::ALL {
            let sound = heard(&browser, &url, pattern, 70).await;
            for ((note, on, off), pair) in stretches(pattern).iter().zip(sound.chunks(2)) {
                let ((loud, crossings), (silence, _)) = (pair[0], pair[1]);
                let cue = pattern.cue;
                // Half of full scale, by the volume.
                assert!((0.25..=0.45).contains(&loud), "{cue:?}, {note:?}: {loud}");
                let seconds = inner(*on)[1] - inner(*on)[0];
                let hertz = crossings / 2.0 / seconds;
                assert!(
                    (hertz - f64::from(note.hertz)).abs() <= 1.0 / seconds,
                    "{cue:?}, {note:?}: {hertz} Hz"
                );
                if note.off_ms > 0 {
                    assert!(silence < 0.001, "{cue:?} is not silent between {off:?}: {silence}");
                }
            }
            let beats = serde_json::to_value(
                stretches(pattern).iter().flat_map(|(n, ..)| [n.on_ms, n.off_ms]).collect::<Vec<u16>>(),
            );
            let shaken = browser.run("return shaken").await;
            assert!(shaken.as_array().unwrap().contains(&beats.unwrap()), "{:?}: {shaken}", pattern.cue);
        }
        let go = Cue::Go.pattern().unwrap();
        let sound = heard(&browser, &url, go, 0).await;
        assert!(sound.iter().all(|(loud, _)| *loud < 0.001), "volume 0: {sound:?}");
        browser.close().await;
    });
}
