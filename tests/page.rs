//! The phone page in a real browser. (Against people who mean no good: `crates/page/tests`.)
//!
//! One browser test at a time: two Chromiums at once are enough for two processors. Where there is no Chromium the test
//! fails under CI; elsewhere it says what was left out (`cargo xtask test` installs it where it may).

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    unreachable_pub,
    reason = "a test"
)]

#[path = "page/browser.rs"]
mod browser;
mod common;
#[path = "../crates/page/tests/bench/mod.rs"]
mod daemon;
#[path = "page/find.rs"]
mod find;
#[path = "page/forms.rs"]
mod forms;
#[path = "page/killed.rs"]
mod killed;
#[path = "page/languages.rs"]
mod languages;
#[path = "page/looks.rs"]
mod looks;
#[path = "../src/rehearse/metered.rs"]
#[allow(unreachable_pub, reason = "shared with the program")]
mod metered;
#[path = "page/sheets.rs"]
mod sheets;
#[path = "page/sound.rs"]
mod sound;
#[path = "page/rehearsal.rs"]
mod whole_job;
