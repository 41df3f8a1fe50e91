//! What is painted at each moment, at six sizes; what axe-core finds; what a thumb and a keyboard can do.

use page::Limits;

use crate::browser::{Browser, Driver, with_driver};
use crate::daemon::{Moment, serve};

/// Name, width, height, device pixels in one.
const SIZES: &[(&str, u32, u32, f64)] = &[
    ("360x640", 360, 640, 1.0),
    ("768x1024", 768, 1024, 1.0),
    ("1280x800", 1280, 800, 1.0),
    ("zoom-200", 384, 512, 2.0),
    // A phone on its side.
    ("640x360", 640, 360, 1.0),
    ("800x360", 800, 360, 1.0),
];

/// A browser on the page of one moment.
pub async fn browser_at(driver: &Driver, moment: &str, path: &str) -> (Browser, Moment, tempfile::TempDir) {
    let folder = tempfile::tempdir().unwrap();
    let said = Moment::say(&folder.path().join("socket"), moment);
    let served = serve(folder.path(), false, None, Limits::default());
    let browser = driver.browser(360, 640).await;
    browser.open(&(served.url() + path)).await;
    browser.until("document.body.dataset.contact === 'yes'").await;
    (browser, said, folder)
}

/// Nothing hangs out of the screen, the word is huge, the main button is at the thumb.
pub async fn is_laid_out(browser: &Browser, what: &str) {
    let wide = browser.run("return document.documentElement.scrollWidth - innerWidth").await;
    assert!(wide.as_i64().unwrap() <= 0, "{what}: {wide} pixels hang out to the right");
    let word = "const r = document.createRange(); r.selectNodeContents(document.getElementById('word')); return r.getBoundingClientRect()";
    let rect = browser.run(word).await;
    let inside = browser.run("return innerWidth").await.as_f64().unwrap();
    assert!(rect["right"].as_f64().unwrap() <= inside, "{what}: the word hangs out");
    let high = browser.run("return innerHeight").await.as_f64().unwrap();
    let (top, bottom) = (rect["top"].as_f64().unwrap(), rect["bottom"].as_f64().unwrap());
    assert!(top >= 0.0 && bottom <= high, "{what}: the word is not seen without scrolling");
    let size = browser
        .run("return parseFloat(getComputedStyle(document.getElementById('word')).fontSize) / innerWidth")
        .await;
    assert!(size.as_f64().unwrap() >= 0.1, "{what}: the word is small: {size} of the width");
    let cut = "return [...document.querySelectorAll('button, .now, .why')].filter(e => e.offsetParent && e.scrollWidth > e.clientWidth + 1).map(e => e.textContent)";
    assert_eq!(browser.run(cut).await, serde_json::json!([]), "{what}: text is cut off");
}

#[test]
fn every_moment_is_painted_as_it_is_at_every_size_and_axe_finds_nothing() {
    with_driver(|driver| async move {
        let moments: &[(&str, &str, &str, &str)] = &[
            ("wait", "/", "wait", "wait"),
            ("ready", "/", "wait", "wait"),
            ("go", "/", "go", "go"),
            ("too-hot", "/", "too-hot", "too hot"),
            ("lost", "/", "no-reading", "no reading"),
            ("cycle", "/inside", "wait", "wait"),
        ];
        for (moment, path, surface, word) in moments {
            let (browser, _said, _folder) = browser_at(&driver, moment, path).await;
            assert_eq!(browser.surface().await, *surface, "{moment}");
            assert_eq!(browser.text("word").await, *word, "{moment}");
            for &(size, width, height, scale) in SIZES {
                browser.size(width, height, scale).await;
                is_laid_out(&browser, &format!("{moment} at {size}")).await;
                keep_picture(&browser, moment, size).await;
            }
            browser.size(360, 640, 1.0).await;
            assert_eq!(browser.violations().await, Vec::<String>::new(), "{moment}");
            frame_is_painted(&browser, surface).await;
            browser.close().await;
        }
    });
}

/// The surfaces differ without any colour: inversion, frame, bars, hatching.
async fn frame_is_painted(browser: &Browser, surface: &str) {
    let style = "const b = getComputedStyle(document.body), f = getComputedStyle(document.querySelector('.frame')); \
                 return [b.backgroundColor, f.borderTopWidth, f.backgroundImage !== 'none', b.backgroundImage !== 'none']";
    let ink = "rgb(16, 24, 32)";
    let paper = "rgb(251, 247, 238)";
    let want = match surface {
        "go" => serde_json::json!([paper, "14px", false, false]),
        "too-hot" => serde_json::json!([paper, "0px", true, false]),
        "no-reading" => serde_json::json!([ink, "0px", false, true]),
        _ => serde_json::json!([ink, "0px", false, false]),
    };
    assert_eq!(browser.run(style).await, want, "{surface}");
}

/// With BLESS set, pictures for `docs/` are written; looking at them is a person's work.
pub async fn keep_picture(browser: &Browser, moment: &str, size: &str) {
    if std::env::var_os("BLESS").is_some() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/screens");
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(
            folder.join(format!("{moment}-{size}.png")),
            browser.client.screenshot().await.unwrap(),
        )
        .unwrap();
    }
}

#[test]
fn a_thumb_tells_by_holding_and_a_slip_tells_nothing() {
    with_driver(|driver| async move {
        let (browser, said, _folder) = browser_at(&driver, "go", "/").await;
        browser.slip("[data-tell=flowing]").await;
        browser.hears("longer").await;
        assert!(said.told.try_recv().is_err(), "a slip tells nothing");
        // The page stands still for longer than a hold takes, and the finger is lifted meanwhile.
        browser.slip_while_it_stands("[data-tell=flowing]").await;
        browser.hears("longer").await;
        assert!(said.told.try_recv().is_err(), "nor does a page that stood still");
        browser.hold("[data-tell=flowing]").await;
        browser.hears("Entered.").await;
        let told = said.told.try_recv().unwrap();
        assert!(told.contains(r#""tell":"flowing""#) && told.contains(r#""by":"under""#), "{told}");
        assert!(said.told.try_recv().is_err(), "once");

        // A finger that stays on it for long afterwards asks nothing more when it is lifted.
        browser.press("[data-tell=flowing]").await;
        let told = said.told.recv_timeout(crate::browser::PATIENCE).unwrap();
        assert!(told.contains(r#""tell":"flowing""#), "{told}");
        browser.until("performance.now() - (window.taken ??= performance.now()) > 1200").await;
        assert_eq!(browser.lift("[data-tell=flowing]").await.as_bool(), Some(false), "no dialog");
        assert!(said.told.try_recv().is_err(), "once");

        // A button that comes to lie under the finger while it is lifted is not meant: no dialog, nothing told.
        let under_the_finger = "const b = document.querySelector('[data-tell=nothing-flows]'); \
             b.dispatchEvent(new MouseEvent('click', {bubbles: true, cancelable: true, detail: 1})); \
             return document.getElementById('ask').open";
        assert_eq!(browser.run(under_the_finger).await.as_bool(), Some(false));

        // The same by keyboard: Enter held down.
        browser.run("document.querySelector('[data-tell=flowing]').focus()").await;
        let key = |kind: &str| serde_json::json!({"type": kind, "key": "Enter", "code": "Enter", "windowsVirtualKeyCode": 13});
        browser.devtools("Input.dispatchKeyEvent", key("keyDown")).await;
        browser.hears("Entered.").await;
        let told = said.told.recv_timeout(crate::browser::PATIENCE).unwrap();
        assert!(told.contains(r#""tell":"flowing""#), "{told}");
        browser.devtools("Input.dispatchKeyEvent", key("keyUp")).await;

        // A spot reading, with the surface chosen.
        browser.click("#more summary").await;
        browser.click("[data-tell=spot]").await;
        assert_eq!(browser.violations().await, Vec::<String>::new(), "the form");
        browser.type_into("#at", "38,5").await;
        browser.find("#surface").await.select_by_value("matt-paint").await.unwrap();
        browser.click("#yes").await;
        let told = said.told.recv_timeout(crate::browser::PATIENCE).unwrap();
        assert!(told.contains(r#""celsius":38.5,"surface":"matt-paint""#), "{told}");

        // Jobs and plan.
        browser.until("!document.getElementById('ask').open").await;
        browser.click("#jobs").await;
        browser.until("document.querySelector('#sheet-text a')?.textContent === 'Job 1, 2 March 2026'").await;
        assert_eq!(browser.violations().await, Vec::<String>::new(), "the list of jobs");
        browser.click("#close").await;
        browser.click("#plan").await;
        browser
            .until("document.getElementById('sheet-text').textContent.includes('Plan: Demo six-speed')")
            .await;
        browser.close().await;
    });
}

#[test]
fn a_change_is_spoken_once_and_reduced_motion_is_respected() {
    with_driver(|driver| async move {
        let (browser, _said, _folder) = browser_at(&driver, "go", "/").await;
        let spoken = browser.text("spoken").await;
        assert_eq!(spoken, "go. Open the check port now, from the side. Glasses on.");
        // Frames go on and paint; the live region is touched only for another text. On a busy machine there may be one:
        // a page that waits too long for a frame says so, and then the verdict again.
        let watch = "const s = document.getElementById('spoken'); window.aloud = [s.textContent]; \
                     new MutationObserver(() => aloud.push(s.textContent)).observe(s, \
                     {childList: true, characterData: true, subtree: true}); window.before = performance.now()";
        browser.run(watch).await;
        browser.until("performance.now() - before > 1500").await;
        let again = "return aloud.filter((text, at) => at > 0 && text === aloud[at - 1]).length";
        assert_eq!(browser.run(again).await.as_i64(), Some(0), "the same is not spoken twice");
        let media = serde_json::json!({"features": [{"name": "prefers-reduced-motion", "value": "reduce"}]});
        browser.devtools("Emulation.setEmulatedMedia", media).await;
        let moving = "document.querySelector('[data-tell=flowing]').classList.add('holding'); \
                      return getComputedStyle(document.querySelector('.holding'), '::after').animationName";
        assert_eq!(browser.run(moving).await.as_str(), Some("none"));
        browser.close().await;
    });
}
