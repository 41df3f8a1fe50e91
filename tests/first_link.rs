//! An adapter that serves one connection in each power-up is read: the one that `serve` opens to see whether the port
//! can be used is the one that the daemon talks over.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    reason = "a test"
)]

mod common;

use common::Home;

#[test]
fn an_adapter_that_serves_its_first_link_only_is_read() {
    let home = Home::new();
    let mut car = home.start(&["car", "--link", "tcp:127.0.0.1:0", "--firmware", "copy-first-link-only"]);
    let device = car.line();
    let mut daemon = home.start(&["serve", "--device", &device]);
    daemon.until_said(|l| l.contains("socket"));
    let mut events = home.start(&["events", "--since", "0", "--json"]);
    let first = events.until(|l| l.contains(r#""state":"protocol""#) || l.contains(r#""state":"lost""#));
    assert!(first.contains(r#""state":"protocol""#), "{first}");
}
