//! The page in every language: chosen by what the browser accepts, nothing hangs out, nothing is cut.
//!
//! A machine without letters of a script draws boxes of about their width; what overflows is found all the same.

use words::Lang;

use crate::browser::with_driver;
use crate::looks::{browser_at, is_laid_out, keep_picture};

/// Moment, and the message of its word.
const MOMENTS: &[(&str, &str)] =
    &[("wait", "word-wait"), ("go", "word-go"), ("too-hot", "word-too-hot"), ("lost", "word-no-reading")];

#[test]
fn every_language_is_painted_without_overflow_on_a_phone_and_on_a_desk() {
    with_driver(|driver| async move {
        for (moment, word) in MOMENTS {
            let (browser, _said, _folder) = browser_at(&driver, moment, "/").await;
            let url = browser.run("return location.href").await.as_str().unwrap().to_owned();
            let agent = browser.run("return navigator.userAgent").await;
            for &lang in Lang::ALL {
                let accepts =
                    serde_json::json!({"userAgent": agent, "acceptLanguage": format!("{lang},en;q=0.5")});
                browser.devtools("Emulation.setUserAgentOverride", accepts).await;
                browser.open(&url).await;
                browser.until(&format!("document.documentElement.lang === '{lang}'")).await;
                browser.until("document.body.dataset.contact === 'yes'").await;
                assert_eq!(browser.text("word").await, lang.text(word), "{lang}, {moment}");
                for (size, width, height) in [("360x640", 360, 640), ("1280x800", 1280, 800)] {
                    browser.size(width, height, 1.0).await;
                    is_laid_out(&browser, &format!("{moment} in {lang} at {size}")).await;
                    if matches!(lang, Lang::De | Lang::Pl) && size == "360x640" {
                        keep_picture(&browser, &format!("{moment}-{lang}"), size).await;
                    }
                }
            }
            browser.close().await;
        }
    });
}
