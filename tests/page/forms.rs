//! What the one inside reads of the vehicle, told on the page: its lamp, its display, its gauge. The built program, no adapter.
//!
//! What arrives is held against the journal, and each form is looked at by the same rules as every other moment.

use crate::browser::{Browser, with_driver};
use crate::common::{Home, Process, fixture, stderr};
use crate::looks::{is_laid_out, keep_picture};

/// The daemon without an adapter, with a page; told so far that the selector is to be moved.
fn served(home: &Home, sheet: &str) -> (Process, String) {
    let sheet = fixture(sheet);
    let mut daemon = home.start(&[
        "serve",
        "--device",
        "none",
        "--sheet",
        sheet.to_str().unwrap(),
        "--page",
        "127.0.0.1:0",
    ]);
    let said = daemon.until_said(|l| l.starts_with("page: "));
    let url = said.split_whitespace().nth(1).unwrap().to_owned();
    for words in [
        "start",
        "confirm on-stands",
        "confirm exhaust-outside",
        "level --pitch 0.1deg --roll 0deg",
        "confirm parked",
        "confirm fluid-right",
        "drained 2.4L --at 20C",
        "confirm pipe-in",
        "filled 2.87L --at 20C",
        "confirm closed-up",
        "confirm clear --by under",
        "confirm started-cold",
        "engine idling --by inside",
        "confirm mode-on",
    ] {
        let words: Vec<&str> = words.split(' ').collect();
        let output = home.run(&[&["tell"], &words[..]].concat());
        // Not every sheet asks for all of it.
        let said = stderr(&output);
        assert!(output.status.success() || said.contains("does not ask"), "{words:?}: {said}");
    }
    (daemon, url)
}

/// What was told last, by its word.
fn last_told(home: &Home, word: &str) -> serde_json::Value {
    let mut events = home.start(&["events", "--since", "0"]);
    let line = events.until(|l| l.contains(r#""kind":"told""#) && l.contains(&format!(r#""tell":"{word}""#)));
    serde_json::from_str(&line).unwrap()
}

/// The page of a seat, on a phone; it looks as it should, and axe finds nothing.
async fn looked_at(browser: &Browser, url: &str, form: &str, css: &str) {
    browser.open(url).await;
    browser.until(&format!("document.querySelector('{css}')")).await;
    is_laid_out(browser, form).await;
    assert_eq!(browser.violations().await, Vec::<String>::new(), "{form}");
}

/// Fills a form in, is told why a word of it is nothing, and tells it.
async fn fill_in(browser: &Browser, css: &str, form: &str, field: &str, [wrong, right]: [&str; 2]) {
    browser.click(css).await;
    browser.type_into(field, wrong).await;
    browser.click("#yes").await;
    // Nothing that is no number is told.
    let open = "document.getElementById('yes').offsetParent";
    browser.until(open).await;
    keep_picture(browser, form, "360x640").await;
    browser.run(&format!("document.querySelector('{field}').value = ''")).await;
    browser.type_into(field, right).await;
    browser.click("#yes").await;
    browser.hears("Entered.").await;
}

#[test]
fn lamp_display_and_gauge_are_told_on_the_page() {
    with_driver(|driver| async move {
        let home = Home::new();
        let (daemon, url) = served(&home, "sheets/demo-lamp.toml");
        let browser = driver.browser(360, 640).await;
        looked_at(&browser, &format!("{url}inside"), "lamp", "[data-tell=lamp]").await;
        // The maker's own words for the three states, and no lamp of ours.
        let says = "return [...document.querySelectorAll('[data-tell=lamp]')].map(b => b.textContent.trim())";
        let states = [
            "Lamp too cold: the wrench shows nothing",
            "Lamp right: the wrench shows and stays",
            "Lamp too hot: the wrench comes and goes",
        ];
        assert_eq!(browser.run(says).await, serde_json::json!(states));
        keep_picture(&browser, "lamp", "360x640").await;
        browser.click("[data-tell=lamp]").await;
        browser.hears("Entered.").await;
        assert_eq!(last_told(&home, "lamp")["shows"], "too-cold");
        drop(daemon);

        let home = Home::new();
        let (daemon, url) = served(&home, "sheets/demo-display.toml");
        looked_at(&browser, &format!("{url}inside"), "display", "[data-tell=display]").await;
        fill_in(&browser, "[data-tell=display]", "display", "#at", ["warm", "31.5"]).await;
        assert_eq!(last_told(&home, "display")["celsius"], 31.5);
        drop(daemon);

        let home = Home::new();
        let (daemon, url) = served(&home, "sheets/procedures/gauge-chart.toml");
        looked_at(&browser, &url, "gauge", "[data-tell=gauge]").await;
        // Before its time it is behind the others, and can be told all the same.
        browser.click("#more summary").await;
        fill_in(&browser, "[data-tell=gauge]", "gauge", "#depth", ["much", "24"]).await;
        assert_eq!(last_told(&home, "gauge")["millimetres"], 24.0);
        drop(daemon);
        browser.close().await;
    });
}
