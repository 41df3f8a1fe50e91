//! The browser's tests again and again, for a cause that shows itself once in many runs.
//!
//! In: how many rounds. Out: a line for each; the whole output of the first that fails. Not here: the browser's
//! installation (`components.rs`).

use std::process::Command;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::shell::Done;

/// The page's tests so often in a row, each second time beside two busy loops; stops at the first that fails.
pub fn rounds(rounds: u32) -> Done {
    let (program, folder) = crate::tests::one("standpipe::page")?;
    for round in 1..=rounds {
        let busy = AtomicBool::new(round % 2 == 0);
        let passed = std::thread::scope(|scope| {
            for _ in 0..2 {
                scope.spawn(|| {
                    while busy.load(Ordering::Relaxed) {
                        std::hint::spin_loop();
                    }
                });
            }
            let run = Command::new(&program).current_dir(&folder).env("CI", "true").output();
            busy.store(false, Ordering::Relaxed);
            run
        });
        let output = passed.map_err(|e| format!("the page's tests: {e}"))?;
        if !output.status.success() {
            return Err(format!(
                "round {round} of {rounds}:\n{}\n{}",
                String::from_utf8_lossy(&output.stdout),
                String::from_utf8_lossy(&output.stderr)
            ));
        }
        println!(
            "   round {round} of {rounds}: passed{}",
            if round % 2 == 0 { ", beside two busy loops" } else { "" }
        );
    }
    Ok(())
}
