//! From a vehicle whose identifier nobody knows to a level that is set by it, on the phone page.
//!
//! `find --rehearse` serves the page; what the thermometer shows and the confirmation are told there, hands are typed. Then the sheet's
//! questions are answered on the page of a daemon, and the job is done through the page on the same vehicle.

use rehearsal::setup::{Setup, Unknown};
use rehearsal::{embedded, identifiers::Form};

use crate::browser::{Browser, with_driver};
use crate::common::{Home, Process, fixture};
use crate::looks::{is_laid_out, keep_picture};
use crate::whole_job::whole_job;

/// A vehicle whose identifier can be told from its neighbours.
const VEHICLE: u64 = 3;

/// What is to be done next, each time that it is something else.
fn next(searching: &mut Process, before: &mut String) -> String {
    let of = |line: &str| serde_json::from_str::<serde_json::Value>(line).unwrap_or_default();
    let is_news = |line: &str| {
        let line = of(line);
        line["kind"] == "find" && line["next"] != before.as_str()
    };
    let line = searching.until(is_news);
    *before = of(&line)["next"].as_str().unwrap().to_owned();
    before.clone()
}

/// What the thermometer shows.
fn measures(searching: &mut Process) -> String {
    searching.type_line("measure");
    let shown = searching.until_said(|line| line.contains("The thermometer shows"));
    let behind = shown.split("shows ").nth(1).unwrap();
    behind.chars().take_while(|c| "-.0123456789".contains(*c)).collect()
}

async fn says(browser: &Browser, words: &str) {
    browser.until(&format!("document.getElementById('now').textContent.includes('{words}')")).await;
}

#[test]
fn an_identifier_that_nobody_knows_is_found_and_a_level_is_set_by_it_on_the_page() {
    with_driver(|driver| async move {
        let home = Home::new();
        let folder = home.path().join("made");
        std::fs::create_dir(&folder).unwrap();
        let into = folder.join("unknown-six.toml");
        let seed = VEHICLE.to_string();
        let find = [
            "find",
            "--rehearse",
            &seed,
            "--pace",
            "max",
            "--page",
            "127.0.0.1:0",
            "--into",
            into.to_str().unwrap(),
        ];
        let mut searching = home.start(&find);
        let said = searching.until_said(|l| l.starts_with("page: "));
        let url = said.split_whitespace().nth(1).unwrap().to_owned();
        let browser = driver.browser(360, 640).await;
        browser.open(&url).await;
        let (mut measured, mut before) = (0, String::new());
        loop {
            // Simulated time stands until it is done: the page comes to show it.
            match next(&mut searching, &mut before).as_str() {
                "key-off" => searching.type_line("key off"),
                "start-engine" => {
                    says(&browser, "Then start it, in P").await;
                    searching.type_line("engine on");
                }
                "spot" => {
                    says(&browser, "measure the sump").await;
                    if measured == 0 {
                        is_laid_out(&browser, "the search").await;
                        assert_eq!(browser.violations().await, Vec::<String>::new(), "the search");
                        keep_picture(&browser, "find", "360x640").await;
                    }
                    measured += 1;
                    let celsius = measures(&mut searching);
                    browser.click("[data-tell=spot]").await;
                    browser.type_into("#at", &celsius).await;
                    browser.find("#surface").await.select_by_value("tape").await.unwrap();
                    browser.click("#yes").await;
                    browser.hears("Entered.").await;
                }
                "confirm" => {
                    says(&browser, "Then confirm it").await;
                    browser.until("document.getElementById('find').textContent.includes('is left')").await;
                    browser.hold("[data-tell=candidate]").await;
                    searching.until(|line| line.contains("\"kind\":\"found\""));
                    break;
                }
                _ => {}
            }
        }
        assert!(measured >= 2, "{measured}");
        assert!(searching.child.wait().unwrap().success(), "found, and confirmed");

        // The sheet's questions, on the page of the daemon.
        let sheet = fixture("sheets/demo-spot-only.toml");
        let (named, made) = (sheet.to_str().unwrap(), folder.to_str().unwrap());
        let serve =
            ["serve", "--device", "none", "--sheet", named, "--sheets", made, "--page", "127.0.0.1:0"];
        let mut daemon = home.start(&serve);
        let said = daemon.until_said(|l| l.starts_with("page: "));
        browser.open(said.split_whitespace().nth(1).unwrap()).await;
        browser.click("#more summary").await;
        browser.click("#data").await;
        browser.until("document.querySelector('.of-sheet')?.textContent.includes('begun')").await;
        browser.click(".of-sheet").await;
        for (asks, says) in [
            ("Which fluid", "as the maker specifies"),
            ("Between which temperatures", "35-45 C (maker)"),
            ("How much came out", "2,4 L (measured)"),
        ] {
            browser
                .until(&format!("document.getElementById('sheet-asks')?.textContent.includes('{asks}')"))
                .await;
            browser.type_into("#sheet-said", says).await;
            browser.click("#sheet-take").await;
        }
        browser
            .until("document.getElementById('sheet-asks')?.textContent.includes('Where does the level')")
            .await;
        browser.click("#sheet-write").await;
        browser.until("document.getElementById('sheet-written')").await;
        let mut sheet = events::Sheet::parse(&std::fs::read_to_string(&into).unwrap()).unwrap();
        assert_eq!((sheet.check.signal, sheet.check.k), (events::Signal::Fluid, events::Sheet::FOUND_K));
        assert!(sheet.unconfirmed.is_empty() && sheet.is_guessed("level.rim"));
        drop(daemon);
        browser.close().await;

        // The job on the vehicle that it was found on, gated by what was found.
        if let Some(selector) = &mut sheet.before.selector {
            selector.rounds = 1;
        }
        let mut setup = Setup::named(None, &sheet, Some(embedded::warmup()), 1);
        setup.unknown = Some(Unknown { seed: VEHICLE, form: Some(Form::Plain) });
        whole_job(&driver, &setup).await;
    });
}
