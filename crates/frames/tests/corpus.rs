//! Every committed entry of the fuzz corpora, through the same functions that the fuzz targets run.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may panic")]

#[path = "../fuzz/src/lib.rs"]
#[allow(unreachable_pub, reason = "it is a library of its own")]
mod targets;

use std::fs;
use std::path::{Path, PathBuf};

fn corpus() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus")
}

#[test]
fn every_corpus_entry_passes_its_target() {
    for (name, run) in targets::TARGETS {
        let entries: Vec<_> =
            fs::read_dir(corpus().join(name)).unwrap().map(|entry| entry.unwrap().path()).collect();
        assert!(!entries.is_empty(), "{name} has no corpus");
        for path in entries {
            run(&fs::read(&path).unwrap());
        }
    }
}

#[test]
fn every_folder_of_the_corpus_belongs_to_a_target_and_is_small() {
    for folder in fs::read_dir(corpus()).unwrap().map(Result::unwrap) {
        let name = folder.file_name().into_string().unwrap();
        assert!(targets::TARGETS.iter().any(|(target, _)| *target == name), "{name}");
        let sizes =
            fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().metadata().unwrap().len());
        let total: u64 = sizes.sum();
        assert!(total < 64 * 1024, "{name}: {total} bytes");
    }
}
