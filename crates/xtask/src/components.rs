//! What tests need beside Rust: the browser that the page's tests drive, Chromium and its driver; the terminal that
//! `watch` is tested in, tmux; the tracer by which power cuts are played, strace; a broker with its clients, mosquitto, and openssl to
//! make certificates for it. As Debian packages.
//!
//! Installed where that is possible (as root, with apt). Under CI a missing one is a failure; elsewhere it is said what
//! is left out, and the tests that need it say so too.

use std::process::{Command, Stdio};

use crate::shell::Done;

const PACKAGES: [&str; 7] =
    ["chromium", "chromium-driver", "tmux", "strace", "mosquitto", "mosquitto-clients", "openssl"];

/// Sees to it that all of it is there.
pub fn install() -> Done {
    if is_there() {
        return Ok(());
    }
    let installed = apt(&["update", "-qq"])
        .and_then(|()| apt(&[&["install", "-y", "-qq", "--no-install-recommends"], &PACKAGES[..]].concat()));
    match installed {
        Ok(()) if is_there() => Ok(()),
        done if std::env::var_os("CI").is_some() => {
            Err(format!("CI needs {}: {}", PACKAGES.join(", "), done.err().unwrap_or_default()))
        }
        _ => {
            println!(
                "left out: tests of the page in a real browser, of `watch` in a real terminal, of power cuts, of the relay at a broker, or all of them; `apt-get install {}` brings it",
                PACKAGES.join(" ")
            );
            Ok(())
        }
    }
}

fn is_there() -> bool {
    let all = [
        ("chromium", "--version"),
        ("chromedriver", "--version"),
        ("tmux", "-V"),
        ("strace", "-V"),
        ("mosquitto", "-h"),
        ("mosquitto_sub", "--help"),
        ("openssl", "version"),
    ];
    all.iter().all(|(program, word)| {
        // Some end their help with a code of its own.
        Command::new(program).arg(word).stdout(Stdio::null()).stderr(Stdio::null()).status().is_ok()
    })
}

fn apt(arguments: &[&str]) -> Done {
    let run = Command::new("apt-get")
        .args(arguments)
        .env("DEBIAN_FRONTEND", "noninteractive")
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status();
    match run {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("apt-get {}: {status}", arguments.join(" "))),
        Err(e) => Err(format!("apt-get: {e}")),
    }
}
