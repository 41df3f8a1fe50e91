//! A sheet made and corrected on the page, on a phone, question by question.

use crate::browser::{Browser, with_driver};
use crate::common::{Home, fixture};
use crate::looks::keep_picture;

/// Nothing sticks out sideways, and axe finds nothing.
async fn fits(browser: &Browser, what: &str) {
    let wide =
        "return document.getElementById('sheet').scrollWidth - document.getElementById('sheet').clientWidth";
    assert_eq!(browser.run(wide).await, serde_json::json!(0), "{what}: no wider than a phone");
    assert_eq!(browser.violations().await, Vec::<String>::new(), "{what}");
}

async fn asks(browser: &Browser, words: &str) {
    let condition =
        format!("(document.getElementById('sheet-asks') || {{}}).textContent?.includes('{words}')");
    browser.until(&condition).await;
}

#[test]
fn a_sheet_is_made_and_corrected_on_a_phone() {
    with_driver(|driver| async move {
        let home = Home::new();
        let sheet = fixture("sheets/demo-spot-only.toml");
        let folder = home.path().join("made");
        std::fs::create_dir(&folder).unwrap();
        let made = folder.to_str().unwrap();
        let serve = [
            "serve",
            "--device",
            "none",
            "--sheet",
            sheet.to_str().unwrap(),
            "--sheets",
            made,
            "--page",
            "127.0.0.1:0",
        ];
        let mut daemon = home.start(&serve);
        let said = daemon.until_said(|l| l.starts_with("page: "));
        let url = said.split_whitespace().nth(1).unwrap().to_owned();
        let browser = driver.browser(360, 640).await;
        browser.open(&url).await;
        browser.click("#more summary").await;
        browser.click("#data").await;
        browser.until("document.getElementById('sheet-name')").await;
        fits(&browser, "the list").await;
        browser.type_into("#sheet-name", "old-six").await;
        browser.click("#sheet-new").await;
        asks(&browser, "Which fluid").await;
        browser.type_into("#sheet-said", "as specified").await;
        browser.click("#sheet-take").await;
        asks(&browser, "Between which temperatures").await;
        // What cannot be is said, and asked again.
        browser.type_into("#sheet-said", "35 45").await;
        browser.click("#sheet-take").await;
        browser.until("document.getElementById('sheet-heard').textContent.includes('no unit')").await;
        fits(&browser, "a question").await;
        keep_picture(&browser, "sheet", "360x640").await;
        browser.type_into("#sheet-said", "95-113 F (maker)").await;
        browser.click("#sheet-take").await;
        asks(&browser, "How much came out").await;
        browser.click("#sheet-back").await;
        asks(&browser, "Between which temperatures").await;
        browser.type_into("#sheet-said", "95-113 F (maker)").await;
        browser.click("#sheet-take").await;
        asks(&browser, "How much came out").await;
        browser.click("#sheet-unknown").await;
        asks(&browser, "How will you know").await;
        browser.click("#sheet-help").await;
        browser.until("document.getElementById('sheet-heard').textContent.includes('at best')").await;
        fits(&browser, "the choices").await;
        browser.click("[data-choice=display]").await;
        asks(&browser, "Where does the level").await;
        browser.click("#sheet-write").await;
        browser.until("document.getElementById('sheet-written')").await;
        let read =
            || events::Sheet::parse(&std::fs::read_to_string(folder.join("old-six.toml")).unwrap()).unwrap();
        let made = read();
        assert_eq!((made.check.band_c, made.check.signal), ([35.0, 45.0], events::Signal::Display));
        assert!(made.is_guessed("fluid.drain_ml") && made.is_guessed("level.rim"), "{:?}", made.guessed);
        // Corrected: one value out of all.
        browser.open(&url).await;
        browser.click("#more summary").await;
        browser.click("#data").await;
        browser.until("document.querySelector('.of-sheet')").await;
        browser.click(".of-sheet").await;
        browser.until("document.querySelector('[data-key=\"fluid.drain_ml\"]')").await;
        fits(&browser, "all values").await;
        browser.click("[data-key=\"fluid.drain_ml\"]").await;
        asks(&browser, "How much came out").await;
        browser.type_into("#sheet-said", "1/2 gal (measured)").await;
        browser.click("#sheet-take").await;
        browser
            .until("document.querySelector('[data-key=\"fluid.drain_ml\"]').textContent.includes('measured')")
            .await;
        browser.click("#sheet-write").await;
        browser.until("document.getElementById('sheet-written')").await;
        assert_eq!(read().fluid.drain_ml, 1_893.0);
        // The daemon knows it without a restart: it can be chosen.
        browser.click("#close").await;
        browser.until("document.querySelector('[data-tell=sheet]')").await;
        drop(daemon);
        browser.close().await;
    });
}

#[test]
fn a_sheet_is_shared_by_one_phone_and_taken_and_confirmed_by_another() {
    with_driver(|driver| async move {
        let home = Home::new();
        let sheet = fixture("sheets/demo-spot-only.toml");
        let folder = home.path().join("made");
        std::fs::create_dir(&folder).unwrap();
        std::fs::copy(&sheet, folder.join("ours.toml")).unwrap();
        let (named, made) = (sheet.to_str().unwrap(), folder.to_str().unwrap());
        let serve =
            ["serve", "--device", "none", "--sheet", named, "--sheets", made, "--page", "127.0.0.1:0"];
        let mut daemon = home.start(&serve);
        let said = daemon.until_said(|l| l.starts_with("page: "));
        let url = said.split_whitespace().nth(1).unwrap().to_owned();
        let browser = driver.browser(360, 640).await;
        let list = async |browser: &Browser| {
            browser.open(&url).await;
            browser.click("#more summary").await;
            browser.click("#data").await;
            browser.until("document.querySelector('.of-sheet')").await;
        };
        list(&browser).await;
        browser.click(".of-sheet").await;
        browser.until("document.getElementById('sheet-share')").await;
        browser.click("#sheet-share").await;
        browser.until("document.getElementById('sheet-shared')").await;
        fits(&browser, "the file to be saved").await;
        let saved =
            browser.run("return decodeURIComponent(document.getElementById('sheet-shared').href.split(',').slice(1).join(','))");
        let file = home.path().join("theirs.share");
        std::fs::write(&file, saved.await.as_str().unwrap()).unwrap();

        list(&browser).await;
        browser.find("#sheet-file").await.send_keys(file.to_str().unwrap()).await.unwrap();
        browser.until("document.querySelector('[data-confirm=\"check.band_c\"]')").await;
        fits(&browser, "what nobody has confirmed").await;
        keep_picture(&browser, "confirm", "360x640").await;
        let theirs = || {
            events::Sheet::parse(&std::fs::read_to_string(folder.join("theirs.toml")).unwrap())
                .unwrap()
                .unconfirmed
        };
        assert!(!theirs().is_empty());
        // Nobody's word is no word.
        browser.click("[data-confirm=\"check.band_c\"]").await;
        browser.until("document.getElementById('sheet-wrong').textContent.includes('who confirms')").await;
        browser.type_into("#sheet-by", "K").await;
        let open = "return document.querySelectorAll('[data-confirm]').length";
        let mut left = browser.run(open).await.as_u64().unwrap();
        assert!(left > 10, "{left}");
        while left > 0 {
            assert!(!theirs().is_empty(), "not before the last one");
            browser.click("[data-confirm]").await;
            left -= 1;
            browser.until(&format!("document.querySelectorAll('[data-confirm]').length === {left}")).await;
        }
        assert!(theirs().is_empty(), "{:?}", theirs());
        drop(daemon);
        browser.close().await;
    });
}
